using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>How long to plan: in milliseconds where a person measures, in rounds where an answer must be repeatable.</summary>
internal sealed record Effort(int? Milliseconds, int? Rounds)
{
    public PlanBudget Budget(ulong seed) =>
        Rounds is { } rounds
            ? new PlanBudget(rounds, seed)
            : PlanBudget.Within(TimeSpan.FromMilliseconds(Milliseconds!.Value), TimeProvider.System, seed);
}

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// How long to search. The answer follows from the workload, the seed and the rounds; a deadline that comes sooner cuts
/// rounds, and then the answer hangs on the machine too.
/// </summary>
/// <param name="Rounds">Rounds of each search chain; 0 is one construction and its justification.</param>
/// <param name="Deadline">Time from the call after which no further round is begun; needs <paramref name="Clock"/>.</param>
public sealed record PlanBudget(int Rounds, ulong Seed = 1, TimeSpan? Deadline = null, TimeProvider? Clock = null)
{
    /// <summary>As many rounds as fit into a span of time.</summary>
    public static PlanBudget Within(TimeSpan time, TimeProvider clock, ulong seed = 1) =>
        new(int.MaxValue, seed, time, clock);
}

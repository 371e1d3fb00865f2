using System.Globalization;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>A plan of ours breaks a rule: a fault of the program, never of the maker. Nothing is stored.</summary>
public sealed class PlanBrokenException(IReadOnlyList<PlanBreach> breaches)
    : Exception($"The plan breaks its own rules and was not stored: {string.Join("; ", breaches.Select(Words))}.")
{
    public IReadOnlyList<PlanBreach> Breaches => breaches;

    private static string Words(PlanBreach breach)
    {
        var where = breach.BatchId is { } batch ? $" of batch {batch}" : "";
        var when = breach.Day is { } day ? string.Create(CultureInfo.InvariantCulture, $" on day {day}") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{breach.Rule}{where}{when}, {breach.Found} where {breach.Allowed} is allowed"
        );
    }
}

/// <summary>The last look at a plan before it is stored.</summary>
public static class PlanCheck
{
    /// <summary>The plan itself when it keeps every rule. A batch without a place is no breach: the maker is shown it.</summary>
    public static Plan Kept(Workload work, Plan plan)
    {
        PlanBreach[] breaches =
        [
            .. PlanRules.Check(work, plan).Where(breach => breach.Rule != PlanRule.EveryBatchPlanned),
        ];
        return breaches.Length == 0 ? plan : throw new PlanBrokenException(breaches);
    }
}

using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>
/// Batches that lie longer than the most nights of the step they have done. The maker was away or the bench is full:
/// instead of a plan that cannot be, the soak and its night are planned once more. It is a plan only: a maker who goes
/// on in time, or all the same, records the next step as ever.
/// </summary>
public static class Overlong
{
    /// <summary>The last day the next step may be done; null where the blanks may rest. Damp nights do not count.</summary>
    public static DateOnly? LastDay(BenchFacts facts, Batch batch) =>
        batch is { Stage: BatchStage.OnBench, NextStep: > 1, LastWorkedOn: { } worked }
        && facts.Models[batch.Model].Route[batch.NextStep - 1].Then is Follow.Dry { MostNights: { } most }
            ? worked.AddDays(most + batch.DampNights)
            : null;

    /// <summary>Batches whose repeat is in the stored plan.</summary>
    public static HashSet<string> InPlan(BenchFacts facts)
    {
        var sittings = facts.Sittings.ToLookup(sitting => sitting.BatchId, StringComparer.Ordinal);
        return facts
            .OpenBatches.Where(batch => sittings[batch.Id].Any(sitting => IsAgain(sitting, batch)))
            .Select(batch => batch.Id)
            .ToHashSet(StringComparer.Ordinal);
    }

    /// <summary>The first step of a planned repeat; null where none is planned.</summary>
    public static int? RepeatStep(BenchFacts facts, Batch batch) =>
        facts.Again.Contains(batch.Id) ? facts.Models[batch.Model].Route.RepeatStep(batch.NextStep) : null;

    /// <summary>Steps before the next one are planned for a repeat only: a sitting that is done leaves the plan.</summary>
    public static bool IsAgain(PlannedSitting sitting, Batch batch) =>
        sitting.BatchId == batch.Id && sitting.LastStep < batch.NextStep;

    /// <summary>
    /// Batches for which no day within their most nights has the minutes their next sitting takes, whatever else is
    /// planned.
    /// </summary>
    public static HashSet<string> WithoutEvening(BenchFacts facts)
    {
        var work = BenchWork.Of(facts, new HashSet<string>()).Work;
        return work
            .Batches.Where(batch => batch.LatestStart is not null && !HasEvening(work, batch))
            .Select(batch => batch.Id)
            .ToHashSet(StringComparer.Ordinal);
    }

    private static bool HasEvening(Workload work, WorkBatch batch)
    {
        var next = batch.Sittings[0];
        var minutes = next.Minutes + next.SetUps.Sum(key => work.SetUpMinutes[key]);
        var last = Math.Min(batch.LatestStart!.Value, work.OpenMinutes.Count - 1);
        return Enumerable
            .Range(batch.ReleaseDay, Math.Max(0, last - batch.ReleaseDay + 1))
            .Any(day => work.Helpers.Prepend(work.OpenMinutes).Any(open => open[day] >= minutes));
    }
}

namespace ReedShop.Planning.Scheduling;

/// <summary>What a plan costs, so that of two plans the better can be told.</summary>
public static class PlanCost
{
    /// <summary>A day late outweighs any earliness a plan could gain by it.</summary>
    public const long LateDay = 1000;

    /// <summary>No lateness within a horizon comes near to leaving a batch out.</summary>
    public const long Unplanned = 10_000_000_000_000_000;

    /// <summary>
    /// Weighted days late times 1000, plus days early, plus extra nights between first sitting and finish. Work that no
    /// promise waits for costs one for each day it finishes later than it could at the earliest.
    /// </summary>
    public static long Of(Workload work, Plan plan) =>
        work.Batches.Sum(batch => plan.Days.TryGetValue(batch.Id, out var days) ? Of(batch, days) : Unplanned);

    public static long Of(WorkBatch batch, IReadOnlyList<int> days) =>
        Aim.For(batch).CostOf(days[0], batch.FinishDay(days), batch.LeastStay);
}

/// <summary>When one batch should finish and what it costs to miss that.</summary>
/// <param name="DueDay">The finish that costs least.</param>
/// <param name="LateDay">Cost of each day after it.</param>
/// <param name="LatestFinish">The last finish day that is allowed at all.</param>
internal readonly record struct Aim(int DueDay, long LateDay, int LatestFinish = int.MaxValue)
{
    public static Aim For(WorkBatch batch) =>
        batch.DueDay is { } due
            ? new(due, PlanCost.LateDay * batch.Weight)
            : new(Math.Max(0, batch.ReleaseDay) + batch.LeastStay, 1);

    /// <summary>Finish as early as possible, whatever else it costs; of two such places the shorter stay.</summary>
    public static Aim Earliest { get; } = new(-1, PlanCost.LateDay * PlanCost.LateDay);

    public long FinishCost(int finish) => finish > DueDay ? LateDay * (finish - DueDay) : DueDay - finish;

    public long CostOf(int start, int finish, int leastStay) => FinishCost(finish) + (finish - start - leastStay);

    public long CostOf(WorkTable table, int batch, ReadOnlySpan<int> days) =>
        CostOf(days[0], days[^1] + table.Gap[table.First[batch + 1] - 1], table.LeastStay[batch]);
}

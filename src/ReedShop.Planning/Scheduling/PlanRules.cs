namespace ReedShop.Planning.Scheduling;

/// <summary>What a plan must keep, one name a rule.</summary>
public enum PlanRule
{
    EveryBatchPlanned,
    OneDayPerSitting,
    WithinHorizon,
    NotBeforeRelease,
    LeastNights,
    MostNights,
    PinnedDayKept,
    OpenMinutes,
    RackRoom,
}

/// <summary>One place where a plan breaks a rule.</summary>
/// <param name="BatchId">The batch, where the rule binds one batch alone.</param>
/// <param name="Day">The day, or the night that follows it, counted from the first day of the workload.</param>
/// <param name="Found">What the plan has: days, nights, minutes or blanks.</param>
/// <param name="Allowed">The limit that it crosses, in the same unit.</param>
public sealed record PlanBreach(PlanRule Rule, string? BatchId, int? Day, int Found, int Allowed);

/// <summary>Every rule a plan keeps. Batches that the workload does not name are no concern of it.</summary>
public static class PlanRules
{
    public static IReadOnlyList<PlanBreach> Check(Workload work, Plan plan) =>
        [
            .. EveryBatchPlanned(work, plan),
            .. OneDayPerSitting(work, plan),
            .. Placed(work, plan).SelectMany(placed => OfOneBatch(work, placed.Batch, placed.Days)),
            .. OpenMinutes(work, plan),
            .. RackRoom(work, plan),
        ];

    /// <summary>The rules that bind a batch alone, whatever the others do.</summary>
    internal static IEnumerable<PlanBreach> OfOneBatch(Workload work, WorkBatch batch, int[] days) =>
        [
            .. WithinHorizon(work, batch, days),
            .. NotBeforeRelease(batch, days),
            .. LeastNights(batch, days),
            .. MostNights(batch, days),
            .. PinnedDayKept(batch, days),
        ];

    private static IEnumerable<PlanBreach> EveryBatchPlanned(Workload work, Plan plan) =>
        from batch in work.Batches
        where !plan.Days.ContainsKey(batch.Id)
        select new PlanBreach(PlanRule.EveryBatchPlanned, batch.Id, null, 0, batch.Sittings.Count);

    private static IEnumerable<PlanBreach> OneDayPerSitting(Workload work, Plan plan) =>
        from batch in work.Batches
        let days = plan.Days.GetValueOrDefault(batch.Id)
        where days is not null && days.Length != batch.Sittings.Count
        select new PlanBreach(PlanRule.OneDayPerSitting, batch.Id, null, days.Length, batch.Sittings.Count);

    private static IEnumerable<PlanBreach> WithinHorizon(Workload work, WorkBatch batch, int[] days) =>
        from day in days
        where day < 0 || day >= work.OpenMinutes.Count
        select new PlanBreach(PlanRule.WithinHorizon, batch.Id, day, day, day < 0 ? 0 : work.OpenMinutes.Count - 1);

    private static IEnumerable<PlanBreach> NotBeforeRelease(WorkBatch batch, int[] days) =>
        from day in days
        where day < batch.ReleaseDay
        select new PlanBreach(PlanRule.NotBeforeRelease, batch.Id, day, day, batch.ReleaseDay);

    private static IEnumerable<PlanBreach> LeastNights(WorkBatch batch, int[] days) =>
        from sitting in Enumerable.Range(0, days.Length - 1)
        let nights = days[sitting + 1] - days[sitting]
        where nights < batch.LeastNightsAfter(sitting)
        select new PlanBreach(
            PlanRule.LeastNights,
            batch.Id,
            days[sitting + 1],
            nights,
            batch.LeastNightsAfter(sitting)
        );

    private static IEnumerable<PlanBreach> MostNights(WorkBatch batch, int[] days) =>
        from sitting in Enumerable.Range(0, days.Length - 1)
        let nights = days[sitting + 1] - days[sitting]
        let most = batch.Sittings[sitting].MostNights
        where nights > most
        select new PlanBreach(PlanRule.MostNights, batch.Id, days[sitting + 1], nights, most.Value);

    private static IEnumerable<PlanBreach> PinnedDayKept(WorkBatch batch, int[] days) =>
        from sitting in Enumerable.Range(0, days.Length)
        let pinned = batch.Sittings[sitting].PinnedDay
        where pinned is not null && days[sitting] != pinned
        select new PlanBreach(PlanRule.PinnedDayKept, batch.Id, days[sitting], days[sitting], pinned.Value);

    /// <summary>The sittings of a day and, once for each key they use, its set-up fit into the open minutes.</summary>
    private static IEnumerable<PlanBreach> OpenMinutes(Workload work, Plan plan) =>
        from sitting in Placed(work, plan).SelectMany(placed => placed.Batch.Sittings.Zip(placed.Days))
        group sitting.First by sitting.Second into day
        where day.Key >= 0 && day.Key < work.OpenMinutes.Count
        let setUps = day.SelectMany(sitting => sitting.SetUps).Distinct().Sum(key => work.SetUpMinutes[key])
        let minutes = day.Sum(sitting => sitting.Minutes) + setUps
        where minutes > work.OpenMinutes[day.Key]
        orderby day.Key
        select new PlanBreach(PlanRule.OpenMinutes, null, day.Key, minutes, work.OpenMinutes[day.Key]);

    /// <summary>The blanks that lie on the rack on a night have room there.</summary>
    private static IEnumerable<PlanBreach> RackRoom(Workload work, Plan plan) =>
        from lying in Placed(work, plan)
            .SelectMany(
                placed => NightsOnRack(work, placed.Batch, placed.Days),
                (placed, night) => (night, placed.Batch)
            )
        group lying.Batch.Blanks by lying.night into night
        where night.Sum() > work.RackBlanks
        orderby night.Key
        select new PlanBreach(PlanRule.RackRoom, null, night.Key, night.Sum(), work.RackBlanks);

    /// <summary>The nights on which a batch takes its place on the rack; night t follows day t.</summary>
    private static IEnumerable<int> NightsOnRack(Workload work, WorkBatch batch, int[] days)
    {
        var before = batch.OnRack ? Nights(0, days[0]) : [];
        var after =
            work.RackCharge == RackCharge.WholeStay
                ? Nights(days[0], batch.FinishDay(days))
                : batch.Sittings.Zip(days).SelectMany(s => Nights(s.Second, s.Second + s.First.Nights));
        return before.Concat(after).Distinct();
    }

    private static IEnumerable<int> Nights(int from, int until) => Enumerable.Range(from, Math.Max(0, until - from));

    private static IEnumerable<(WorkBatch Batch, int[] Days)> Placed(Workload work, Plan plan) =>
        from batch in work.Batches
        let days = plan.Days.GetValueOrDefault(batch.Id)
        where days is not null && days.Length == batch.Sittings.Count
        select (batch, days);
}

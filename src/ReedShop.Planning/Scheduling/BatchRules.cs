namespace ReedShop.Planning.Scheduling;

/// <summary>The rules that bind a batch alone, whatever the others do.</summary>
internal static class BatchRules
{
    public static IEnumerable<PlanBreach> Check(Workload work, WorkBatch batch, int[] days) =>
        [
            .. WithinHorizon(work, batch, days),
            .. NotBeforeRelease(batch, days),
            .. NotAfterLatestStart(batch, days),
            .. LeastNights(batch, days),
            .. LeastHours(work, batch, days),
            .. MostNights(batch, days),
            .. PinnedDayKept(batch, days),
        ];

    private static IEnumerable<PlanBreach> WithinHorizon(Workload work, WorkBatch batch, int[] days) =>
        from day in days
        where day < 0 || day >= work.OpenMinutes.Count
        select new PlanBreach(PlanRule.WithinHorizon, batch.Id, day, day, day < 0 ? 0 : work.OpenMinutes.Count - 1);

    private static IEnumerable<PlanBreach> NotBeforeRelease(WorkBatch batch, int[] days) =>
        from day in days
        where day < batch.ReleaseDay
        select new PlanBreach(PlanRule.NotBeforeRelease, batch.Id, day, day, batch.ReleaseDay);

    /// <summary>The most nights of a sitting done already bind the next one.</summary>
    private static IEnumerable<PlanBreach> NotAfterLatestStart(WorkBatch batch, int[] days) =>
        batch.LatestStart is { } latest && days[0] > latest
            ? [new PlanBreach(PlanRule.NotAfterLatestStart, batch.Id, days[0], days[0], latest)]
            : [];

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

    /// <summary>The hours a sitting asks for lie between the closing of its day and the opening of the next one's.</summary>
    private static IEnumerable<PlanBreach> LeastHours(Workload work, WorkBatch batch, int[] days) =>
        from sitting in Enumerable.Range(0, days.Length - 1)
        let hours = batch.Sittings[sitting].LeastHours
        let nights = days[sitting + 1] - days[sitting]
        where hours > 0 && nights > 0 && work.IsTooShort(nights, hours, days[sitting + 1])
        select new PlanBreach(PlanRule.LeastHours, batch.Id, days[sitting + 1], nights, nights + 1);

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
}

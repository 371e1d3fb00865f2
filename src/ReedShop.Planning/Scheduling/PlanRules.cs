namespace ReedShop.Planning.Scheduling;

/// <summary>What a plan must keep, one name a rule.</summary>
public enum PlanRule
{
    EveryBatchPlanned,
    OneDayPerSitting,
    WithinHorizon,
    NotBeforeRelease,
    NotAfterLatestStart,
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
            .. NotAfterLatestStart(batch, days),
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
    private static IEnumerable<PlanBreach> OpenMinutes(Workload work, Plan plan)
    {
        var minutes = new int[work.OpenMinutes.Count];
        var paid = new HashSet<(int Day, string Key)>();
        foreach (var (batch, days) in Placed(work, plan))
        {
            for (var k = 0; k < days.Length; k++)
            {
                if (days[k] >= 0 && days[k] < minutes.Length)
                {
                    minutes[days[k]] += batch.Sittings[k].Minutes + Unpaid(work, batch.Sittings[k], days[k], paid);
                }
            }
        }

        return Above(PlanRule.OpenMinutes, minutes, day => work.OpenMinutes[day]);
    }

    private static int Unpaid(Workload work, WorkSitting sitting, int day, HashSet<(int Day, string Key)> paid)
    {
        var minutes = 0;
        foreach (var key in sitting.SetUps)
        {
            minutes += paid.Add((day, key)) ? work.SetUpMinutes[key] : 0;
        }

        return minutes;
    }

    /// <summary>The blanks that lie on the rack on a night have room there.</summary>
    private static IEnumerable<PlanBreach> RackRoom(Workload work, Plan plan)
    {
        var placed = Placed(work, plan).ToArray();
        var blanks = new int[placed.Select(p => Math.Max(0, p.Batch.FinishDay(p.Days))).DefaultIfEmpty().Max()];
        foreach (var (batch, days) in placed)
        {
            var free = 0;
            foreach (var (from, until) in NightsOnRack(work, batch, days))
            {
                for (var night = Math.Max(free, from); night < Math.Min(until, blanks.Length); night++)
                {
                    blanks[night] += batch.Blanks;
                }

                free = Math.Max(free, until);
            }
        }

        return Above(PlanRule.RackRoom, blanks, _ => work.RackBlanks);
    }

    /// <summary>The runs of nights on which a batch takes its place on the rack, in order; night t follows day t.</summary>
    private static IEnumerable<(int From, int Until)> NightsOnRack(Workload work, WorkBatch batch, int[] days)
    {
        if (batch.OnRack)
        {
            yield return (0, days[0]);
        }

        if (work.RackCharge == RackCharge.WholeStay)
        {
            yield return (days[0], batch.FinishDay(days));
            yield break;
        }

        for (var k = 0; k < days.Length; k++)
        {
            yield return (days[k], days[k] + batch.Sittings[k].Nights);
        }
    }

    /// <summary>The days or nights that hold more than they may.</summary>
    private static IEnumerable<PlanBreach> Above(PlanRule rule, int[] found, Func<int, int> allowed) =>
        from day in Enumerable.Range(0, found.Length)
        where found[day] > 0 && found[day] > allowed(day)
        select new PlanBreach(rule, null, day, found[day], allowed(day));

    private static IEnumerable<(WorkBatch Batch, int[] Days)> Placed(Workload work, Plan plan) =>
        from batch in work.Batches
        let days = plan.Days.GetValueOrDefault(batch.Id)
        where days is not null && days.Length == batch.Sittings.Count
        select (batch, days);
}

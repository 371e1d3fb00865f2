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
    LeastHours,
    MostNights,
    PinnedDayKept,
    PersonKnown,
    OpenMinutes,
    MostBlanks,
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
            .. BenchRules.Placed(work, plan).SelectMany(placed => BatchRules.Check(work, placed.Batch, placed.Days)),
            .. PersonKnown(work, plan),
            .. BenchRules.Check(work, plan),
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

    private static IEnumerable<PlanBreach> PersonKnown(Workload work, Plan plan) =>
        from batch in work.Batches
        let people = plan.People.GetValueOrDefault(batch.Id)
        where people is not null
        from person in people
        where person < 0 || person >= work.People
        select new PlanBreach(PlanRule.PersonKnown, batch.Id, null, person, work.People - 1);
}

namespace ReedShop.Planning.Scheduling;

/// <summary>Makes plans that keep every rule of <see cref="PlanRules"/>.</summary>
public static class Planner
{
    /// <summary>The best plan found from scratch. Batches that fit nowhere within the horizon are left out of it.</summary>
    public static Plan Build(Workload work, PlanBudget budget, CancellationToken cancel = default)
    {
        var table = new WorkTable(work);
        var aims = table.Batches.Select(Aim.For).ToArray();
        var search = new Search(budget, cancel);
        return search
            .Improve(() => new Draft(table, aims), draft => Construction.Best(draft, new Draft(table, aims)), 2000, 2)
            .ToPlan();
    }

    public static Plan Replan(Workload work, Plan current, PlanBudget budget, CancellationToken cancel = default)
    {
        var table = new WorkTable(work);
        var aims = table.Batches.Select(ReplanCost.AimFor).ToArray();
        var announced = new Announced(table, current);
        var kept = new Draft(table, aims, announced);
        Replanning.Keep(kept, current);
        if (Replanning.IsSettled(kept))
        {
            return kept.ToPlan();
        }

        var search = new Search(budget, cancel);
        return search
            .Improve(
                () => new Draft(table, aims, announced),
                draft => draft.CopyFrom(kept),
                ReplanCost.LateDay,
                ReplanCost.MovedDay
            )
            .ToPlan();
    }

    /// <summary>The place that finishes first among the others, who keep their days; null where there is none.</summary>
    public static int[]? PlaceEarliest(Workload work, Plan others, WorkBatch newcomer) =>
        Place(work, others, newcomer, Aim.Earliest);

    /// <summary>The cheapest place among the others, who keep their days; null where there is none.</summary>
    public static int[]? PlaceBest(Workload work, Plan others, WorkBatch batch) =>
        Place(work, others, batch, Aim.For(batch));

    public static Plan? QuoteEarliest(
        Workload work,
        Plan promised,
        WorkBatch newcomer,
        PlanBudget budget,
        CancellationToken cancel = default
    )
    {
        var table = new WorkTable(work, newcomer);
        var aims = table
            .Batches.Select(batch => batch.Id == newcomer.Id ? Aim.Earliest : QuoteAim(batch, promised))
            .ToArray();
        var start = new Draft(table, aims);
        Replanning.Keep(start, promised);
        var search = new Search(budget, cancel);
        var best = search.Improve(() => new Draft(table, aims), draft => draft.CopyFrom(start), 1_000_000, 10_000);
        var plan = best.ToPlan();
        return plan.Days.Count == table.Batches.Length ? plan : null;
    }

    private static Aim QuoteAim(WorkBatch batch, Plan promised)
    {
        if (batch.DueDay is not { } due)
        {
            return Aim.For(batch);
        }

        var limit =
            promised.Days.TryGetValue(batch.Id, out var days) && days.Length == batch.Sittings.Count
                ? Math.Max(due, batch.FinishDay(days))
                : due;
        return new Aim(limit, PlanCost.LateDay, limit);
    }

    private static int[]? Place(Workload work, Plan others, WorkBatch batch, Aim aim)
    {
        var table = new WorkTable(work, batch);
        var occupancy = new Occupancy(table);
        var number = table.Number[batch.Id];
        foreach (var (id, days) in others.Days)
        {
            if (table.Number.TryGetValue(id, out var other) && other != number && IsOnBench(table, other, days))
            {
                occupancy.Put(other, days);
            }
        }

        var place = new int[batch.Sittings.Count];
        return new Placement(table, occupancy).TryFind(number, aim, place, out _) ? place : null;
    }

    private static bool IsOnBench(WorkTable table, int batch, int[] days) =>
        days.Length == table.Sittings(batch)
        && days[0] >= 0
        && days[^1] < table.Days
        && Enumerable.Range(1, days.Length - 1).All(k => days[k - 1] < days[k]);
}

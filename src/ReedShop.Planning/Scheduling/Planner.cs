namespace ReedShop.Planning.Scheduling;

/// <summary>Makes plans that keep every rule of <see cref="PlanRules"/>.</summary>
public static class Planner
{
    /// <summary>
    /// The best plan found from scratch. Batches that fit nowhere within the horizon are left out of it. When
    /// cancelled, returns the best so far.
    /// </summary>
    public static Plan Build(Workload work, PlanBudget budget, CancellationToken cancel = default)
    {
        var search = new Search(budget, cancel);
        var table = new WorkTable(work);
        var start = Construction.Best(table, [.. table.Batches.Select(Aim.For)]);
        return search.Improve(start, BuildCooling(start)).ToPlan();
    }

    /// <summary>
    /// Keeps every batch of a plan that still obeys the rules and is not late, and places the others anew, or recovers
    /// the plan by the recovery rule, whichever costs less. Where some batch stays late or finds no place, searches on
    /// from there: fewest unplanned, least weighted lateness, fewest announced days
    /// moved (the nearer, the more they weigh), least earliness and extra nights, in this order. Without new facts
    /// nothing moves.
    /// </summary>
    public static Plan Replan(Workload work, Plan current, PlanBudget budget, CancellationToken cancel = default)
    {
        var search = new Search(budget, cancel);
        var table = new WorkTable(work);
        var draft = new Draft(table, [.. table.Batches.Select(ReplanCost.AimFor)], new Announced(table, current));
        Replanning.Keep(draft, current);
        var recovered = Replanning.Recovered(draft.Empty(), current);
        var start = recovered.Cost < draft.Cost ? recovered : draft;
        Replanning.FetchBack(start);
        return Replanning.IsSettled(start)
            ? start.ToPlan()
            : search.Improve(start, new Cooling(ReplanCost.LateDay, ReplanCost.MovedDay)).ToPlan();
    }

    /// <summary>The place that finishes first among the others, who keep their days; null where there is none.</summary>
    public static int[]? PlaceEarliest(Workload work, Plan others, WorkBatch newcomer) =>
        Place(work, others, newcomer, Aim.Earliest);

    /// <summary>The cheapest place among the others, who keep their days; null where there is none.</summary>
    public static int[]? PlaceBest(Workload work, Plan others, WorkBatch batch) =>
        Place(work, others, batch, Aim.For(batch));

    /// <summary>
    /// A plan of all batches in which the newcomer finishes as early as was found, while every other batch finishes no
    /// later than its due day or its finish in the promised plan, whichever is later; null where no such plan was
    /// found. Work without a due day may move freely.
    /// </summary>
    public static Plan? QuoteEarliest(
        Workload work,
        Plan promised,
        WorkBatch newcomer,
        PlanBudget budget,
        CancellationToken cancel = default
    )
    {
        var search = new Search(budget, cancel);
        var quote = new QuoteSearch(work, promised, newcomer);
        var answer = quote.Answer(search);
        return quote.IsKept(answer) ? answer.ToPlan() : null;
    }

    /// <summary>The plan with somebody named for every sitting, where the bench has several people.</summary>
    public static Plan NamePeople(Workload work, Plan plan) =>
        work.People == 1 ? plan : Drafted(work, plan, out _).ToPlan();

    /// <summary>The plan with every batch back on the days of another plan that has them free.</summary>
    public static Plan PutBack(Workload work, Plan plan, Plan told)
    {
        var draft = Drafted(work, plan, out var table);
        foreach (var batch in table.ByDue.Where(draft.IsPlanned))
        {
            Replanning.PutBack(draft, batch, told);
        }

        return draft.ToPlan();
    }

    /// <summary>
    /// Hot enough to undo a fortnight of lateness where that much is late; cold enough to settle single nights, unless
    /// so much is late that the rounds are better spent on that.
    /// </summary>
    private static Cooling BuildCooling(Draft start) =>
        new(
            Math.Clamp(start.Cost / 1.5, 2 * PlanCost.LateDay, 16 * PlanCost.LateDay),
            Math.Clamp(start.Cost / 100_000.0, 0.3, 10)
        );

    private static int[]? Place(Workload work, Plan others, WorkBatch batch, Aim aim)
    {
        var table = new WorkTable(work, batch);
        var number = table.Number[batch.Id];
        var draft = new Draft(
            table,
            [.. table.Batches.Select((_, b) => b == number ? aim : Aim.For(table.Batches[b]))]
        );
        foreach (var (id, days) in others.Days)
        {
            if (table.Number.TryGetValue(id, out var other) && other != number && IsOnBench(table, other, days))
            {
                draft.Put(other, days, others.PeopleOf(id));
            }
        }

        return draft.Place(number) ? draft.DaysOf(number).ToArray() : null;
    }

    private static Draft Drafted(Workload work, Plan plan, out WorkTable table)
    {
        table = new WorkTable(work);
        var draft = new Draft(table, [.. table.Batches.Select(Aim.For)]);
        foreach (var (id, days) in plan.Days)
        {
            if (table.Number.TryGetValue(id, out var batch) && IsOnBench(table, batch, days))
            {
                draft.Put(batch, days, plan.PeopleOf(id));
            }
        }

        return draft;
    }

    private static bool IsOnBench(WorkTable table, int batch, int[] days) =>
        days.Length == table.Sittings(batch)
        && days[0] >= 0
        && days[^1] < table.Days
        && Enumerable.Range(1, days.Length - 1).All(k => days[k - 1] < days[k]);
}

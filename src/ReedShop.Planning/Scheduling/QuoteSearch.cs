namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Searches for the earliest finish of a newcomer while every other batch keeps its promise. All anneal together, the
/// newcomer due on the earliest day there could be and the others on the day they were promised: a late day of another
/// weighs more than the newcomer can gain, yet plans that break a promise may be passed through.
/// </summary>
internal sealed class QuoteSearch
{
    /// <summary>What a late day of another batch weighs against one of the newcomer.</summary>
    private const int OthersWeight = 40;

    private static readonly Cooling Cooling = new(8 * PlanCost.LateDay, PlanCost.LateDay / 100.0);

    private readonly WorkTable table;
    private readonly int newcomer;
    private readonly int[] latest;

    public QuoteSearch(Workload work, Plan promised, WorkBatch newcomer)
    {
        table = new WorkTable(work, newcomer);
        this.newcomer = table.Number[newcomer.Id];
        latest = [.. table.Batches.Select(batch => LatestFinish(batch, promised))];
        Promised = new Draft(table, Aims(Aim.Earliest, day => new Aim(day, PlanCost.LateDay, day)));
        Replanning.Keep(Promised, promised);
    }

    /// <summary>The promised plan with the newcomer at its earliest place among the others.</summary>
    public Draft Promised { get; }

    public Draft Answer(Search search) => search.Best(Promised, Chain, FinishOf);

    public bool IsKept(Draft draft) =>
        Enumerable
            .Range(0, table.Batches.Length)
            .All(batch => draft.IsPlanned(batch) && (batch == newcomer || draft.Finish(batch) <= latest[batch]));

    private Draft Chain(ulong seed, Allowance allowance)
    {
        if (FinishThereCouldBe() is not { } earliest || earliest == FinishOf(Promised))
        {
            return Promised;
        }

        var start = new Draft(
            table,
            Aims(new Aim(earliest, PlanCost.LateDay), day => new Aim(day, OthersWeight * PlanCost.LateDay))
        );
        start.PutAll(Promised.Places);
        var search = new RuinAndRecreate(start, seed, newcomer);
        search.Anneal(Cooling, allowance, until: 1, enough: PlanCost.LateDay - 1);
        var found = search.Best();
        return FinishOf(found) < FinishOf(Promised) ? found : Promised;
    }

    private long FinishOf(Draft draft) => IsKept(draft) ? draft.Finish(newcomer) : long.MaxValue;

    /// <summary>The finish on an empty bench; null where even that offers no place.</summary>
    private int? FinishThereCouldBe()
    {
        var alone = Promised.Empty();
        return alone.Place(newcomer) ? alone.Finish(newcomer) : null;
    }

    private Aim[] Aims(Aim ofNewcomer, Func<int, Aim> ofOther) =>
        [.. latest.Select((day, batch) => batch == newcomer ? ofNewcomer : ofOther(day))];

    /// <summary>Work that no promise waits for may finish on any day.</summary>
    private int LatestFinish(WorkBatch batch, Plan promised)
    {
        if (batch.DueDay is not { } due)
        {
            return table.LastFinish;
        }

        var days = promised.Days.GetValueOrDefault(batch.Id);
        return days?.Length == batch.Sittings.Count ? Math.Max(due, batch.FinishDay(days)) : due;
    }
}

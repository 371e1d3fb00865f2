namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Searches for the earliest finish of a newcomer while every other batch keeps its promise. All anneal together, the
/// newcomer due on the earliest day there could be and the others on the day they were promised: a late day of another
/// weighs more than the newcomer can gain, yet plans that break a promise may be passed through.
/// </summary>
internal sealed class QuoteSearch
{
    /// <summary>What a late day of another batch weighs at the least against one of the newcomer.</summary>
    private const int OthersWeight = 40;

    /// <summary>Small workloads get stuck, so they begin anew often.</summary>
    private const int SmallWorkload = 20;
    private const int StartsOfSmall = 4;

    /// <summary>The others are soon better off among the promised days.</summary>
    private const double ShareOfFresh = 0.1;

    private const long Enough = PlanCost.LateDay - 1;

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

    /// <summary>The chains begin from different plans: one from the promised, one from a plan no promise has shaped.</summary>
    public Draft Answer(Search search)
    {
        if (FinishThereCouldBe() is not { } earliest || earliest == FinishOf(Promised))
        {
            return Promised;
        }

        var hurried = new WorkTable(table.Work, table.Batches[newcomer] with { DueDay = earliest });
        var aims = SoftAims(earliest);
        Draft[] starts = [new Draft(hurried, aims), Construction.Best(hurried, aims)];
        starts[0].PutAll(Promised.Places);
        return search.Best(Promised, (chain, seed, allowance) => Chain(starts, chain, seed, allowance), FinishOf);
    }

    public bool IsKept(Draft draft) =>
        Enumerable
            .Range(0, table.Batches.Length)
            .All(batch => draft.IsPlanned(batch) && (batch == newcomer || draft.Finish(batch) <= latest[batch]));

    private Draft Chain(Draft[] starts, int chain, ulong seed, Allowance allowance)
    {
        var search = new RuinAndRecreate(starts[chain].Copy(), seed, newcomer);
        if (table.Batches.Length <= SmallWorkload)
        {
            TakeTurns(search, starts, chain, allowance);
        }
        else
        {
            Settle(search, starts, chain, allowance);
        }

        return Sooner(search.Best(), Promised);
    }

    /// <summary>Cools many times, from one start and the other by turns.</summary>
    private static void TakeTurns(RuinAndRecreate search, Draft[] starts, int first, Allowance allowance)
    {
        for (var begun = 1; begun <= StartsOfSmall; begun++)
        {
            search.Anneal(Cooling, allowance, (double)begun / StartsOfSmall, Enough);
            search.Restart(starts[(first + begun) % starts.Length]);
        }
    }

    /// <summary>Large workloads need one long cooling; a fresh start that led nowhere leaves it to the promised plan.</summary>
    private void Settle(RuinAndRecreate search, Draft[] starts, int chain, Allowance allowance)
    {
        if (chain > 0)
        {
            search.Anneal(Cooling, allowance, ShareOfFresh, Enough);
            search.Restart(Sooner(search.Best(), starts[0]));
        }

        search.Anneal(Cooling, allowance, until: 1, Enough);
    }

    private Draft Sooner(Draft found, Draft otherwise) => FinishOf(found) < FinishOf(otherwise) ? found : otherwise;

    private long FinishOf(Draft draft) => IsKept(draft) ? draft.Finish(newcomer) : long.MaxValue;

    private Aim[] SoftAims(int earliest)
    {
        var mostGained = Math.Min(FinishOf(Promised), table.LastFinish) - earliest;
        var lateDay = Math.Max(OthersWeight, mostGained + 1) * PlanCost.LateDay;
        return Aims(new Aim(earliest, PlanCost.LateDay), day => new Aim(day, lateDay));
    }

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

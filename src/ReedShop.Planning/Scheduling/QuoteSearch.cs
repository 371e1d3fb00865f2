namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Searches for the earliest finish of a newcomer while every other batch keeps its promise. One target day after
/// another is aimed at: the promises and the target are due days, being late is what costs, and a target is reached
/// when nobody is late. First the earliest day there could be, then half the way to the best day reached, and so on.
/// Before that, half the allowance lets the others drift within their promises.
/// </summary>
internal sealed class QuoteSearch
{
    /// <summary>Outweighs all earliness and extra nights a plan can have, so that a plan below it has nobody late.</summary>
    private const int LateDay = 1_000_000;

    /// <summary>Half the allowance is shared by so many tries.</summary>
    private const int Tries = 4;

    /// <summary>From the price of one day of the newcomer down to where the others still drift.</summary>
    private static readonly Cooling Drifting = new(1_000_000, 10_000);

    private static readonly Cooling Reaching = new(LateDay * 0.3, LateDay / 50.0);

    private readonly WorkTable table;
    private readonly int newcomer;
    private readonly int[] latest;

    public QuoteSearch(Workload work, Plan promised, WorkBatch newcomer)
    {
        table = new WorkTable(work, newcomer);
        this.newcomer = table.Number[newcomer.Id];
        latest = [.. table.Batches.Select(batch => LatestFinish(batch, promised))];
        Promised = new Draft(table, Keeping());
        Replanning.Keep(Promised, promised);
    }

    /// <summary>The promised plan with the newcomer at its earliest place among the others.</summary>
    public Draft Promised { get; }

    public Draft Answer(Search search) =>
        search.Best(Promised, Chain, answer => IsKept(answer) ? answer.Finish(newcomer) : long.MaxValue);

    public bool IsKept(Draft draft) =>
        Enumerable
            .Range(0, table.Batches.Length)
            .All(batch => draft.IsPlanned(batch) && (batch == newcomer || draft.Finish(batch) <= latest[batch]));

    private Draft Chain(ulong seed, Allowance allowance)
    {
        var earliest = EarliestThereCouldBe();
        var best = FinishOf(Promised) == earliest ? Promised : Drift(seed, allowance);
        var (target, low) = (earliest, earliest);
        for (var tries = 1; tries <= Tries && earliest < FinishOf(best); tries++)
        {
            var found = Reach(target, best, seed + (ulong)tries, allowance, 0.5 + (0.5 * tries / Tries));
            best = found ?? best;
            low = found is null ? target + 1 : low;
            low = low < FinishOf(best) ? low : earliest;
            target = Math.Min((low + FinishOf(best)) / 2, FinishOf(best) - 1);
        }

        return best;
    }

    /// <summary>Every promise is kept all the while; the others drift, and the newcomer takes each gap that opens.</summary>
    private Draft Drift(ulong seed, Allowance allowance)
    {
        var best = Promised.Empty();
        new RuinAndRecreate(Promised.Copy(), best, seed).Anneal(Drifting, allowance, until: 0.5);
        return best;
    }

    /// <summary>A plan with nobody late and the newcomer done by the target day, or null.</summary>
    private Draft? Reach(int target, Draft from, ulong seed, Allowance allowance, double until)
    {
        var draft = Aiming(new Aim(target, LateDay));
        draft.PutAll(from);
        var best = draft.Empty();
        new RuinAndRecreate(draft, best, seed).Anneal(Reaching, allowance, until, enough: LateDay - 1);
        return best.Cost < LateDay ? best : null;
    }

    private int FinishOf(Draft draft) => IsKept(draft) ? draft.Finish(newcomer) : table.LastFinish + 1;

    private int EarliestThereCouldBe()
    {
        var alone = Aiming(Aim.Earliest);
        return alone.Place(newcomer) ? alone.Finish(newcomer) : table.LastFinish + 1;
    }

    private Draft Aiming(Aim newcomerAim) =>
        new(table, [.. latest.Select((day, batch) => batch == newcomer ? newcomerAim : new Aim(day, LateDay))]);

    private Aim[] Keeping() =>
        [.. latest.Select((day, batch) => batch == newcomer ? Aim.Earliest : new Aim(day, LateDay, day))];

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

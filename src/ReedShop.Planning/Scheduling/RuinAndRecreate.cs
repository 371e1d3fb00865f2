using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Simulated annealing over plans (Kirkpatrick, Gelatt, Vecchi 1983) by ruin and recreate (Schrimpf et al. 2000): a
/// round takes out a few batches that want the same days and puts them back in another order, each at its cheapest
/// place or leaning a little away from it.
/// </summary>
internal sealed class RuinAndRecreate
{
    private const int MostTaken = 8;

    private readonly Draft draft;
    private readonly Places best;
    private readonly WorkTable table;
    private readonly int[] taken = new int[MostTaken];
    private readonly double[] order = new double[MostTaken];
    private readonly Places held;
    private readonly Neighbourhood neighbourhood;
    private Dice dice;

    /// <param name="draft">The plan to start from; it is changed.</param>
    /// <param name="inFavourOf">A batch whose sake all is done for, or null.</param>
    public RuinAndRecreate(Draft draft, ulong seed, int? inFavourOf = null)
    {
        this.draft = draft;
        table = draft.Table;
        held = new Places(table);
        neighbourhood = new Neighbourhood(draft, inFavourOf);
        dice = new Dice(seed);
        best = new Places(table);
        Remember();
    }

    public long BestCost { get; private set; }

    /// <summary>The best plan seen.</summary>
    public Draft Best()
    {
        var found = draft.Empty();
        found.PutAll(best);
        return found;
    }

    /// <summary>Goes on from another plan; the best seen is kept.</summary>
    public void Restart(Draft from)
    {
        draft.Clear();
        draft.PutAll(from.Places);
        if (draft.Cost < BestCost)
        {
            Remember();
        }
    }

    /// <summary>Cools from hot to cold until a share of the allowance is spent, or the best costs little enough.</summary>
    public void Anneal(Cooling cooling, Allowance allowance, double until, long enough = 0)
    {
        var from = allowance.Spent;
        while (allowance.Spent < until && BestCost > enough && allowance.Next())
        {
            Round(cooling.At((allowance.Spent - from) / (until - from)));
        }
    }

    private void Round(double temperature)
    {
        var limit = draft.Cost - (long)(temperature * Math.Log(dice.Share()));
        var wanted = Math.Min(table.Batches.Length, NextSize());
        var count = neighbourhood.Choose(taken.AsSpan(0, wanted), ref dice);
        Ruin(count);
        Order(count);
        var placed = Recreate(count, limit);
        if (placed < count || draft.Cost > limit)
        {
            Restore(count, placed);
        }
        else if (draft.Cost < BestCost)
        {
            Remember();
        }
    }

    /// <summary>From two up; few are quick to try, so they are tried more often than many.</summary>
    private int NextSize()
    {
        var share = 1 - dice.Share();
        return 2 + (int)((MostTaken - 1) * share * share);
    }

    private void Remember()
    {
        BestCost = draft.Cost;
        best.CopyFrom(draft.Places);
    }

    private void Ruin(int count)
    {
        foreach (var batch in taken.AsSpan(0, count))
        {
            held.CopyFrom(draft.Places, batch);
            if (held.Has(batch))
            {
                draft.Take(batch);
            }
        }
    }

    /// <summary>By chance, by due day, by the day to begin at, or by weight, so that none of them rules.</summary>
    private void Order(int count)
    {
        var by = dice.Below(4);
        for (var i = 0; i < count; i++)
        {
            var work = table.Batches[taken[i]];
            var due = work.DueDay ?? table.Days;
            order[i] = by switch
            {
                0 => dice.Share(),
                1 => due + (10 * dice.Share()),
                2 => due - table.LeastStay[taken[i]] - (10 * work.Weight) + (10 * dice.Share()),
                _ => dice.Share() / work.Weight,
            };
        }

        order.AsSpan(0, count).Sort(taken.AsSpan(0, count));
    }

    /// <summary>Puts batches back until the plan costs more than it may; says how many it tried.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private int Recreate(int count, long limit)
    {
        var lean = NextLean();
        var open = count * PlanCost.Unplanned;
        for (var placed = 0; placed < count; placed++)
        {
            var left = limit - (draft.Cost - open);
            if (left < 0)
            {
                return placed;
            }

            open -= PlanCost.Unplanned;
            draft.Place(taken[placed], left + 1, lean);
        }

        return count;
    }

    private Lean NextLean()
    {
        var price = dice.Share() < 0.85 ? PlacementTable.Scale * Math.Pow(300, dice.Share()) : 1;
        var chance = dice.Share() < 0.5 ? 3000 * Math.Pow(dice.Share(), 3) : 0;
        return new Lean((int)price, (int)chance, dice.Below(DayPrices.Draws));
    }

    private void Restore(int count, int placed)
    {
        foreach (var batch in taken.AsSpan(0, placed))
        {
            if (draft.IsPlanned(batch))
            {
                draft.Take(batch);
            }
        }

        foreach (var batch in taken.AsSpan(0, count))
        {
            if (held.Has(batch))
            {
                draft.Put(batch, held);
            }
        }
    }
}

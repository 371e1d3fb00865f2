namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Simulated annealing over plans: a round takes out a few batches that share days and puts them back, each at its
/// cheapest place, in another order.
/// </summary>
internal sealed class RuinAndRecreate
{
    private const int MostTaken = 12;

    private readonly Draft draft;
    private readonly Draft best;
    private readonly WorkTable table;
    private readonly int[] taken = new int[MostTaken];
    private readonly double[] order = new double[MostTaken];
    private readonly int[] held;
    private Dice dice;

    public RuinAndRecreate(Draft draft, Draft best, ulong seed)
    {
        this.draft = draft;
        this.best = best;
        table = draft.Table;
        held = new int[table.Minutes.Length];
        dice = new Dice(seed);
    }

    public void Run(int rounds, double hot, double cold, Func<bool> stop)
    {
        best.CopyFrom(draft);
        if (table.Batches.Length < 2)
            return;
        var cooling = Math.Pow(cold / hot, 1.0 / Math.Max(1, rounds));
        var temperature = hot;
        for (var round = 0; round < rounds; round++)
        {
            if ((round & 31) == 0 && stop())
            {
                return;
            }

            Round(temperature);
            temperature *= cooling;
        }
    }

    private void Round(double temperature)
    {
        var limit = draft.Cost - (temperature * Math.Log(dice.Share()));
        var count = Ruin();
        Order(count);
        var placed = 0;
        var open = count * PlanCost.Unplanned;
        while (placed < count && draft.Cost - open <= limit)
        {
            draft.Place(taken[placed]);
            placed++;
            open -= PlanCost.Unplanned;
        }

        if (placed < count || draft.Cost > limit)
        {
            Restore(count, placed);
        }
        else if (draft.Cost < best.Cost)
        {
            best.CopyFrom(draft);
        }
    }

    private int Ruin()
    {
        var n = table.Batches.Length;
        var count = 0;
        var want = Math.Min(n, 2 + dice.Below(Math.Min(MostTaken - 1, 6)));
        var seed = dice.Below(n);
        var centre = draft.IsPlanned(seed) ? (draft.Start(seed) + draft.Finish(seed)) / 2 : dice.Below(table.Days);
        taken[count++] = seed;
        // those nearest in time, with some luck
        for (var tries = 0; tries < n * 2 && count < want; tries++)
        {
            var other = dice.Below(n);
            if (taken.AsSpan(0, count).Contains(other))
                continue;
            if (draft.IsPlanned(other))
            {
                var distance = Math.Max(0, Math.Max(draft.Start(other) - centre, centre - draft.Finish(other)));
                if (distance > 5 + dice.Below(10))
                    continue;
            }
            taken[count++] = other;
        }

        for (var i = 0; i < count; i++)
        {
            var batch = taken[i];
            if (draft.IsPlanned(batch))
            {
                draft.DaysOf(batch).CopyTo(held.AsSpan(table.First[batch]));
                draft.Take(batch);
            }
            else
            {
                held[table.First[batch]] = WorkTable.NoDay;
            }
        }

        return count;
    }

    private void Order(int count)
    {
        var kind = dice.Below(4);
        for (var i = 0; i < count; i++)
        {
            var work = table.Batches[taken[i]];
            order[i] = kind switch
            {
                0 => dice.Share(),
                1 => (work.DueDay ?? table.Days) + (10 * dice.Share()),
                2 => (work.DueDay ?? table.Days) - table.LeastStay[taken[i]] - (10 * work.Weight) + (10 * dice.Share()),
                _ => dice.Share() / work.Weight,
            };
        }

        order.AsSpan(0, count).Sort(taken.AsSpan(0, count));
    }

    private void Restore(int count, int placed)
    {
        for (var i = 0; i < placed; i++)
        {
            if (draft.IsPlanned(taken[i]))
            {
                draft.Take(taken[i]);
            }
        }

        for (var i = 0; i < count; i++)
        {
            var first = table.First[taken[i]];
            if (held[first] != WorkTable.NoDay)
            {
                draft.Put(taken[i], held.AsSpan(first, table.Sittings(taken[i])));
            }
        }
    }
}

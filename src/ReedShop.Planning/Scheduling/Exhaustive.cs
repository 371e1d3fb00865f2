namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The proven best plan of very few batches: every place of all but one that could still pay is tried, and the last
/// takes its cheapest among them (branch and bound: Land, Doig 1960). For one person at the bench.
/// </summary>
internal sealed class Exhaustive
{
    /// <summary>Each further batch multiplies the places to try by thousands.</summary>
    private const int MostBatches = 3;

    private readonly Draft draft;
    private readonly WorkTable table;
    private readonly Allowance allowance;
    private readonly double until;
    private readonly long[] leastFrom;
    private readonly Places best;
    private long bestCost;

    private Exhaustive(Draft start, long[] least, Allowance allowance, double until)
    {
        draft = start.Empty();
        table = start.Table;
        this.allowance = allowance;
        this.until = until;
        best = new Places(table);
        best.CopyFrom(start.Places);
        bestCost = start.Cost;
        leastFrom = new long[least.Length + 1];
        for (var batch = least.Length - 1; batch >= 0; batch--)
        {
            leastFrom[batch] = leastFrom[batch + 1] + least[batch];
        }
    }

    private bool IsSpent => allowance.Spent >= until;

    /// <summary>The best plan there is; null where a share of the allowance did not suffice to prove it.</summary>
    /// <param name="least">By batch, what it costs when nothing stands in its way.</param>
    public static Draft? Prove(Draft start, long[] least, Allowance allowance, double until)
    {
        if (start.Table.Batches.Length > MostBatches || start.Table.People > 1)
        {
            return null;
        }

        var tried = new Exhaustive(start, least, allowance, until);
        tried.Try(0, 0);
        if (tried.IsSpent)
        {
            return null;
        }

        var proven = start.Empty();
        proven.PutAll(tried.best);
        return proven;
    }

    private void Try(int batch, long costBefore)
    {
        var bound = bestCost - costBefore - leastFrom[batch + 1];
        if (batch < table.Batches.Length - 1)
        {
            Try(batch, 0, new int[table.Sittings(batch)], costBefore);
            LeaveOut(batch, costBefore, bound);
        }
        else if (allowance.Next())
        {
            draft.Place(batch, bound);
            Finish();
            if (draft.IsPlanned(batch))
            {
                draft.Take(batch);
            }
        }
    }

    /// <summary>A plan may also do without a batch, at the price of that.</summary>
    private void LeaveOut(int batch, long costBefore, long bound)
    {
        if (PlanCost.Unplanned < bound)
        {
            Try(batch + 1, costBefore + PlanCost.Unplanned);
        }
    }

    /// <summary>Every day for one sitting after those before it that could still lead to a cheaper plan.</summary>
    private void Try(int batch, int k, int[] days, long costBefore)
    {
        var sitting = table.First[batch] + k;
        if (k == days.Length)
        {
            TryAll(batch, days, costBefore);
            return;
        }

        var from = k == 0 ? table.Release[batch] : table.NextDay(sitting - 1, days[k - 1]);
        var last =
            k == 0
                ? Math.Min(table.Days - 1L, table.Batches[batch].LatestStart ?? int.MaxValue)
                : LastDay(sitting, days[k - 1]);
        for (var day = from; day <= last && !IsSpent; day++)
        {
            days[k] = day;
            var bound = bestCost - costBefore - leastFrom[batch + 1];
            if (draft.LeastCost(batch, days.AsSpan(0, k + 1)) < bound && draft.Fits(sitting, day))
            {
                Try(batch, k + 1, days, costBefore);
            }
        }
    }

    private long LastDay(int sitting, int dayBefore) =>
        Math.Min(table.Days - 1L, (long)dayBefore + table.Most[sitting - 1]);

    private void TryAll(int batch, int[] days, long costBefore)
    {
        if (allowance.Next() && draft.TryPut(batch, days, []))
        {
            Try(batch + 1, costBefore + draft.CostOf(batch));
            draft.Take(batch);
        }
    }

    private void Finish()
    {
        if (draft.Cost < bestCost)
        {
            bestCost = draft.Cost;
            best.CopyFrom(draft.Places);
        }
    }
}

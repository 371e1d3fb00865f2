namespace ReedShop.Planning.Scheduling;

/// <summary>The sittings that draws of a shop gave days, in the order in which the recovery rule comes to them.</summary>
internal sealed class StandingWork
{
    /// <param name="stoodOn">The day of each sitting in the plan; <see cref="RecoveryRule.NoDay"/> where it has none.</param>
    /// <param name="order">Those that have one, by their days.</param>
    public StandingWork(WorkTable table, int[] stoodOn, int[] order)
    {
        (Table, StoodOn) = (table, stoodOn);
        Order = [.. order, .. Enumerable.Range(0, stoodOn.Length).Except(order)];
    }

    public WorkTable Table { get; }

    public int[] StoodOn { get; }

    public int[] Order { get; }
}

/// <summary>What one draw of a shop gave everybody, for batches that ask for a place among them.</summary>
/// <param name="Pushed">By sitting, the day it was pushed to before late work was pulled forward.</param>
/// <param name="Final">By sitting, its day in the end; <see cref="RecoveryRule.NoDay"/> for batches without a place.</param>
internal sealed record StandingDays(
    StandingWork Work,
    int[] OpenMinutes,
    bool[] DampNights,
    int[] Pushed,
    int[] Final,
    int[] People
)
{
    /// <summary>Charges the sittings, from one in order on, that stood on a day or before.</summary>
    /// <returns>The next in order.</returns>
    public int Meet(RecoveryDays bench, int from, int day)
    {
        var next = from;
        while (
            next < Pushed.Length
            && Work.StoodOn[Work.Order[next]] is not RecoveryRule.NoDay and var stood
            && stood <= day
        )
        {
            Charge(bench, Pushed, Work.Order[next++], 1);
        }

        return next;
    }

    /// <summary>Charges all from one in order on.</summary>
    public void MeetRest(RecoveryDays bench, int from)
    {
        foreach (var sitting in Work.Order.AsSpan(from))
        {
            Charge(bench, Pushed, sitting, 1);
        }
    }

    /// <summary>Charges them where they are in the end.</summary>
    public void Pull(RecoveryDays bench)
    {
        for (var batch = 0; batch < Work.Table.Batches.Length; batch++)
        {
            var (first, count) = (Work.Table.First[batch], Work.Table.Sittings(batch));
            if (!Pushed.AsSpan(first, count).SequenceEqual(Final.AsSpan(first, count)))
            {
                for (var sitting = first; sitting < first + count; sitting++)
                {
                    Charge(bench, Pushed, sitting, -1);
                    Charge(bench, Final, sitting, 1);
                }
            }
        }
    }

    private void Charge(RecoveryDays bench, int[] days, int sitting, int sign)
    {
        if (days[sitting] != RecoveryRule.NoDay)
        {
            bench.ChargeOther(Work.Table, sitting, days, People[sitting], sign);
        }
    }
}

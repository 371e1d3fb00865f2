namespace ReedShop.Planning.Scheduling;

/// <summary>The days that the recovery rule gives, batch by batch and from the first sitting of each on.</summary>
internal sealed class RecoveryDays(RecoveryWork work)
{
    private readonly RecoveryBench bench = new(work);
    private readonly int[] days = new int[work.Sittings];
    private readonly int[] bounds = new int[work.Sittings];
    private readonly int[] releases = new int[work.Batches.Length];
    private readonly int[] placed = new int[work.Batches.Length];

    public int this[int sitting] => days[sitting];

    public ReadOnlySpan<int> Of(int batch) => days.AsSpan(work.First[batch], work.Count(batch));

    /// <summary>How many sittings of a batch have a day, from its first on.</summary>
    public int Placed(int batch) => placed[batch];

    public bool IsPlaced(int batch) => placed[batch] == work.Count(batch);

    public int Finish(int batch) => days[work.First[batch + 1] - 1] + work.Gap[work.First[batch + 1] - 1];

    public void Clear(ReadOnlySpan<int> openMinutes, ReadOnlySpan<int> releaseDays)
    {
        bench.Clear(openMinutes);
        releaseDays.CopyTo(releases);
        Array.Clear(placed);
    }

    public void NotBefore(int sitting, int day) => bounds[sitting] = day;

    /// <summary>Sittings from one on may take any day their nights allow.</summary>
    public void Free(int batch, int from) => bounds.AsSpan(work.First[batch] + from, work.Count(batch) - from).Clear();

    /// <summary>
    /// Gives the sittings of a batch up to <paramref name="count"/> the first days not before their bounds that obey
    /// every rule. Where a day lies too many nights, or a night without room, after the sitting before it, that one is
    /// put off, so that the days found are the earliest there are. False where there are none.
    /// </summary>
    public bool Settle(int batch, int count)
    {
        while (placed[batch] < count)
        {
            var k = placed[batch];
            var sitting = work.First[batch] + k;
            if (DayFor(batch, k) is not { } day)
            {
                return false;
            }

            if (BoundBefore(batch, k, day) is { } later)
            {
                TakeBack(batch, k - 1);
                bounds[sitting - 1] = later;
            }
            else if (BlockedAfter(batch, k, day) is { } blocked)
            {
                bounds[sitting] = blocked + 1;
            }
            else
            {
                Put(batch, k, day);
            }
        }

        return true;
    }

    /// <summary>The first day for a sitting after the one before it; null where it has a limit and none keeps it.</summary>
    private int? DayFor(int batch, int k)
    {
        var sitting = work.First[batch] + k;
        var from = k == 0 ? releases[batch] : days[sitting - 1] + work.Gap[sitting - 1];
        var day = bench.FirstDay(sitting, Math.Max(Math.Max(from, bounds[sitting]), work.Pinned[sitting] ?? 0));
        var isStuck =
            day >= work.Days
            || day > work.Pinned[sitting]
            || (
                k == 0
                && (
                    day > work.Batches[batch].LatestStart
                    || (work.Batches[batch].OnRack && bench.LastBlocked(work.Batches[batch].Blanks, 0, day) is not null)
                )
            );
        return isStuck ? null : day;
    }

    /// <summary>The first day the sitting before must be put off to; null where it may stay.</summary>
    private int? BoundBefore(int batch, int k, int day)
    {
        var before = work.First[batch] + k - 1;
        if (k == 0)
        {
            return null;
        }

        if (day - days[before] > work.Most[before])
        {
            return day - work.Most[before];
        }

        return work.WholeStay ? bench.LastBlocked(work.Batches[batch].Blanks, days[before], day) + 1 : null;
    }

    private int? BlockedAfter(int batch, int k, int day) =>
        bench.LastBlocked(work.Batches[batch].Blanks, day, day + NightsCharged(batch, k));

    /// <summary>Nights on the rack that a sitting brings by itself; a whole stay is charged up to the next one.</summary>
    private int NightsCharged(int batch, int k)
    {
        var sitting = work.First[batch] + k;
        return !work.WholeStay ? work.Nights[sitting]
            : k == work.Count(batch) - 1 ? work.Gap[sitting]
            : 0;
    }

    public void Put(int batch, int k, int day)
    {
        days[work.First[batch] + k] = day;
        placed[batch] = k + 1;
        Charge(batch, k, 1);
    }

    /// <summary>Takes the sittings of a batch from one on off the bench, the last first.</summary>
    public void TakeBack(int batch, int from)
    {
        while (placed[batch] > from)
        {
            placed[batch]--;
            Charge(batch, placed[batch], -1);
        }
    }

    private void Charge(int batch, int k, int sign)
    {
        var (sitting, blanks) = (work.First[batch] + k, work.Batches[batch].Blanks);
        var day = days[sitting];
        bench.ChargeDay(sitting, day, sign);
        bench.ChargeNights(blanks, day, day + NightsCharged(batch, k), sign);
        if (k == 0 && work.Batches[batch].OnRack)
        {
            bench.ChargeNights(blanks, 0, day, sign);
        }
        else if (k > 0 && work.WholeStay)
        {
            bench.ChargeNights(blanks, days[sitting - 1], day, sign);
        }
    }
}

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The exact cheapest place of one batch where each of its sittings has a day that was announced: the cost then hangs
/// on every day of it, so costs rather than sets of days are carried from sitting to sitting.
/// </summary>
internal sealed class KeepingPlacement
{
    private const long Never = long.MaxValue / 2;

    private readonly WorkTable table;
    private readonly Occupancy occupancy;
    private readonly Announced announced;
    private readonly long[] costs;
    private readonly int[] before;
    private readonly int[] openFrom;

    public KeepingPlacement(WorkTable table, Occupancy occupancy, Announced announced)
    {
        this.table = table;
        this.occupancy = occupancy;
        this.announced = announced;
        var rows = Enumerable.Range(0, table.Batches.Length).Select(table.Sittings).DefaultIfEmpty().Max();
        costs = new long[rows * table.Days];
        before = new int[rows * table.Days];
        openFrom = new int[table.LastFinish + 2];
    }

    /// <summary>Writes the days of the cheapest place and says its cost; false where the batch fits nowhere.</summary>
    public bool TryFind(int batch, in Aim aim, Span<int> days, out long cost)
    {
        MarkOpenNights(batch);
        FirstSitting(batch);
        for (var k = 1; k < table.Sittings(batch); k++)
        {
            NextSitting(batch, k);
        }

        var last = CheapestFinish(batch, aim, out cost);
        for (var k = table.Sittings(batch) - 1; k >= 0 && last != WorkTable.NoDay; k--)
        {
            days[k] = last;
            last = before[(k * table.Days) + last];
        }

        return cost < Never;
    }

    /// <summary>By day, the first day from which every night up to it has room on the rack.</summary>
    private void MarkOpenNights(int batch)
    {
        openFrom[0] = 0;
        for (var day = 1; day < openFrom.Length; day++)
        {
            openFrom[day] = occupancy.Rack[day - 1] >= table.Blanks[batch] ? openFrom[day - 1] : day;
        }
    }

    private void FirstSitting(int batch)
    {
        var lyingFrom0 = table.Batches[batch].OnRack;
        for (var day = 0; day < table.Days; day++)
        {
            var allowed = day >= table.Release[batch] && (!lyingFrom0 || openFrom[day] == 0);
            costs[day] = allowed ? SittingCost(batch, 0, day) - day : Never;
            before[day] = WorkTable.NoDay;
        }
    }

    private void NextSitting(int batch, int k)
    {
        var from = costs.AsSpan((k - 1) * table.Days, table.Days);
        for (var day = 0; day < table.Days; day++)
        {
            var at = (k * table.Days) + day;
            var own = SittingCost(batch, k, day);
            before[at] = own < Never ? CheapestBefore(batch, k - 1, day, from) : WorkTable.NoDay;
            costs[at] = before[at] == WorkTable.NoDay ? Never : own + from[before[at]];
        }
    }

    private int CheapestBefore(int batch, int k, int day, ReadOnlySpan<long> from)
    {
        var sitting = table.First[batch] + k;
        var earliest = Math.Max(0, day - (long)table.Most[sitting]);
        if (table.Work.RackCharge == RackCharge.WholeStay)
        {
            earliest = Math.Max(earliest, openFrom[day]);
        }

        var best = WorkTable.NoDay;
        for (var earlier = day - table.Gap[sitting]; earlier >= earliest; earlier--)
        {
            if (from[earlier] < (best == WorkTable.NoDay ? Never : from[best]))
            {
                best = earlier;
            }
        }

        return best;
    }

    private int CheapestFinish(int batch, in Aim aim, out long cost)
    {
        var last = table.Sittings(batch) - 1;
        var trailing = table.Gap[table.First[batch] + last];
        var best = WorkTable.NoDay;
        cost = Never;
        for (var day = 0; day < table.Days && day + trailing <= aim.LatestFinish; day++)
        {
            var finish = day + trailing;
            var reached = costs[(last * table.Days) + day];
            var total = reached + aim.FinishCost(finish) + finish - table.LeastStay[batch];
            if (reached < Never && total < cost)
            {
                (best, cost) = (day, total);
            }
        }

        return best;
    }

    /// <summary>What it costs to hold a sitting on a day, where the bench and the nights it requires have room.</summary>
    private long SittingCost(int batch, int k, int day)
    {
        var sitting = table.First[batch] + k;
        var dry = day + table.Nights[sitting];
        var fits =
            occupancy.Room(table.SetOf[sitting])[day] >= table.Minutes[sitting]
            && dry < openFrom.Length
            && openFrom[dry] <= day
            && (table.Pinned[sitting] == WorkTable.NoDay || table.Pinned[sitting] == day);
        return fits ? announced.MoveCost(sitting, day) : Never;
    }
}

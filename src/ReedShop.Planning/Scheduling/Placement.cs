namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The exact cheapest place of one batch among the others: dynamic programming over sittings and days. Its cost hangs
/// on the first sitting and the finish only, so it is enough to know which days each sitting can reach (forward, as
/// sets of days) and, for a finish, the latest first sitting that leads to it (backward). Blanks pass from day to day
/// through nights, each of which must have room on the rack; that makes the rack exact although it binds the whole stay.
/// </summary>
internal sealed class Placement
{
    private readonly WorkTable table;
    private readonly Occupancy occupancy;
    private readonly ulong[] reached;
    private readonly ulong[] leading;
    private readonly ulong[] rackNights;
    private readonly ulong[] restNights;

    private int batch;
    private int sittings;
    private int windowStart;
    private int words;

    public Placement(WorkTable table, Occupancy occupancy)
    {
        this.table = table;
        this.occupancy = occupancy;
        var rows = Enumerable.Range(0, table.Batches.Length).Select(table.Sittings).DefaultIfEmpty().Max() + 1;
        reached = new ulong[rows * table.Words];
        leading = new ulong[rows * table.Words];
        rackNights = new ulong[table.Words];
        restNights = new ulong[table.Words];
        Array.Fill(restNights, ulong.MaxValue);
    }

    /// <summary>Writes the days of the cheapest place and says its cost; false where the batch fits nowhere.</summary>
    public bool TryFind(int number, in Aim aim, Span<int> days, out long cost)
    {
        batch = number;
        sittings = table.Sittings(number);
        windowStart = table.Release[number];
        var last = Math.Min(table.LastFinish, aim.LatestFinish) - windowStart;
        var likely = Math.Max(aim.DueDay - windowStart, table.LeastStay[number]);
        var place = Place.None;
        words = 0;
        while (words * 64 <= last && place.Cost > aim.FinishCost(windowStart + (words * 64)))
        {
            words = Math.Min((last / 64) + 1, words == 0 ? (likely / 64) + 1 : words * 2);
            place = Cheapest(aim, last);
        }

        cost = place.Cost;
        if (place == Place.None)
        {
            return false;
        }

        ChooseDays(place, days);
        return true;
    }

    private Span<ulong> Reached(int sitting) => reached.AsSpan(sitting * words, words);

    private Span<ulong> Leading(int sitting) => leading.AsSpan(sitting * words, words);

    /// <summary>Finishes are tried in the order of what they cost by themselves, until extra nights cannot matter.</summary>
    private Place Cheapest(in Aim aim, int last)
    {
        ReachForward();
        var finishes = Reached(sittings);
        DaySet.CutFrom(finishes, last + 1);
        var due = Math.Min(aim.DueDay - windowStart, (words * 64) - 1);
        var best = Place.None;
        var day = DaySet.LastUpTo(finishes, due);
        for (; day >= 0 && aim.FinishCost(windowStart + day) < best.Cost; day = DaySet.LastUpTo(finishes, day - 1))
        {
            best = Cheaper(best, aim, day);
        }

        day = DaySet.FirstFrom(finishes, Math.Max(0, due + 1));
        for (; day >= 0 && aim.FinishCost(windowStart + day) < best.Cost; day = DaySet.FirstFrom(finishes, day + 1))
        {
            best = Cheaper(best, aim, day);
        }

        return best;
    }

    private Place Cheaper(Place best, in Aim aim, int finish)
    {
        var start = LatestStart(finish);
        var cost = aim.CostOf(windowStart + start, windowStart + finish, table.LeastStay[batch]);
        return cost < best.Cost ? new Place(start, finish, cost) : best;
    }

    private void ReachForward()
    {
        var nights = rackNights.AsSpan(0, words);
        DaySet.AtLeast(occupancy.Rack[windowStart..], table.Blanks[batch], nights);
        if (table.Work.RackCharge == RackCharge.WholeStay)
        {
            nights.CopyTo(restNights);
        }

        var rest = restNights.AsSpan(0, words);
        FittingDays(0, Reached(0));
        if (table.Batches[batch].OnRack)
        {
            DaySet.CutFrom(Reached(0), LastDayLyingFrom0() - windowStart + 1);
        }

        for (var k = 0; k < sittings; k++)
        {
            var sitting = table.First[batch] + k;
            var next = Reached(k + 1);
            Reached(k).CopyTo(next);
            DaySet.Later(next, nights, table.Nights[sitting]);
            DaySet.Later(next, rest, table.Gap[sitting] - table.Nights[sitting]);
            if (k + 1 < sittings)
            {
                if (table.Most[sitting] < table.Gap[sitting])
                {
                    next.Clear();
                }

                DaySet.UpToLater(next, rest, table.Most[sitting] - table.Gap[sitting]);
                FittingDays(k + 1, Leading(0));
                DaySet.Both(next, Leading(0));
            }
        }
    }

    /// <summary>Blanks already on the rack lie there from day 0 to the first sitting: the latest it may be.</summary>
    private int LastDayLyingFrom0()
    {
        var day = 0;
        while (day < table.Days && occupancy.Rack[day] >= table.Blanks[batch])
        {
            day++;
        }

        return day;
    }

    private void FittingDays(int k, Span<ulong> days)
    {
        var sitting = table.First[batch] + k;
        DaySet.AtLeast(occupancy.Room(table.SetOf[sitting])[windowStart..], table.Minutes[sitting], days);
        if (table.Pinned[sitting] != WorkTable.NoDay)
        {
            DaySet.KeepOnly(days, table.Pinned[sitting] - windowStart);
        }
    }

    /// <summary>Fills <see cref="Leading"/> with the days from which a finish can be reached.</summary>
    private int LatestStart(int finish)
    {
        var nights = rackNights.AsSpan(0, words);
        var rest = restNights.AsSpan(0, words);
        Leading(sittings).Clear();
        DaySet.Add(Leading(sittings), finish);
        for (var k = sittings - 1; k >= 0; k--)
        {
            var sitting = table.First[batch] + k;
            var days = Leading(k);
            Leading(k + 1).CopyTo(days);
            if (k < sittings - 1)
            {
                DaySet.UpToEarlier(days, rest, table.Most[sitting] - table.Gap[sitting]);
            }

            DaySet.Earlier(days, rest, table.Gap[sitting] - table.Nights[sitting]);
            DaySet.Earlier(days, nights, table.Nights[sitting]);
            DaySet.Both(days, Reached(k));
        }

        return DaySet.Last(Leading(0));
    }

    /// <summary>
    /// The sittings in between may lie on any day that still leads to the finish: where the least is set up anew,
    /// which leaves the others most room; among equals the earliest.
    /// </summary>
    private void ChooseDays(Place place, Span<int> days)
    {
        LatestStart(place.Finish);
        days[0] = windowStart + place.Start;
        for (var k = 1; k < sittings; k++)
        {
            var sitting = table.First[batch] + k;
            var from = days[k - 1] + table.Gap[sitting - 1];
            var until = (int)Math.Min(windowStart + place.Finish, days[k - 1] + (long)table.Most[sitting - 1]);
            days[k] = LeastSetUp(table.SetOf[sitting], Leading(k), from, until);
        }
    }

    private int LeastSetUp(int set, ReadOnlySpan<ulong> leadingDays, int from, int until)
    {
        var (best, least) = (WorkTable.NoDay, int.MaxValue);
        for (var day = from; day <= until; day++)
        {
            if (DaySet.Has(leadingDays, day - windowStart) && occupancy.Unpaid(set, day) < least)
            {
                (best, least) = (day, occupancy.Unpaid(set, day));
            }
        }

        return best;
    }

    private readonly record struct Place(int Start, int Finish, long Cost)
    {
        public static Place None { get; } = new(-1, -1, long.MaxValue);
    }
}

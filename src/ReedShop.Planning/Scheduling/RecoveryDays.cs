namespace ReedShop.Planning.Scheduling;

/// <summary>The days that the recovery rule gives, batch by batch and from the first sitting of each on.</summary>
internal sealed class RecoveryDays(WorkTable table)
{
    private readonly Occupancy bench = new(table);
    private readonly int[] days = new int[table.Minutes.Length];
    private readonly int[] people = new int[table.Minutes.Length];

    /// <summary>By sitting, whom the plan gave it to; -1 where it gave it to nobody.</summary>
    private readonly int[] planned = [.. Enumerable.Repeat(-1, table.Minutes.Length)];
    private readonly int[] bounds = new int[table.Minutes.Length];
    private readonly int[] releases = new int[table.Batches.Length];
    private readonly int[] placed = new int[table.Batches.Length];

    /// <summary>Damp nights before each day.</summary>
    private readonly int[] damp = new int[table.LastFinish + 2];

    private bool IsWholeStay => table.Work.RackCharge == RackCharge.WholeStay;

    public int this[int sitting] => days[sitting];

    /// <summary>Who does the sittings of a batch.</summary>
    public ReadOnlySpan<int> PeopleOf(int batch) => people.AsSpan(table.First[batch], table.Sittings(batch));

    public ReadOnlySpan<int> People => people;

    public ReadOnlySpan<int> Of(int batch) => days.AsSpan(table.First[batch], table.Sittings(batch));

    /// <summary>How many sittings of a batch have a day, from its first on.</summary>
    public int Placed(int batch) => placed[batch];

    public bool IsPlaced(int batch) => placed[batch] == table.Sittings(batch);

    public int Finish(int batch) => DayAfter(table.First[batch + 1] - 1, days[table.First[batch + 1] - 1]);

    public bool IsThere(int batch) => releases[batch] != RecoveryRule.NoDay;

    /// <summary>Who does the sittings of a batch where they have the minutes: a plan's people are kept with its days.</summary>
    public void Plan(int batch, ReadOnlySpan<int> persons) => persons.CopyTo(planned.AsSpan(table.First[batch]));

    public void Release(int batch, int day) => releases[batch] = day;

    public void Clear(ReadOnlySpan<int> openMinutes, ReadOnlySpan<int> releaseDays, ReadOnlySpan<bool> dampNights)
    {
        bench.Clear(openMinutes);
        releaseDays.CopyTo(releases);
        Array.Clear(placed);
        for (var night = 0; night < damp.Length - 1; night++)
        {
            damp[night + 1] = damp[night] + (night < dampNights.Length && dampNights[night] ? 1 : 0);
        }
    }

    /// <summary>The first day the sitting after this one may be: every damp night is one that does not count.</summary>
    public int DayAfter(int sitting, int day)
    {
        var next = table.NextDay(sitting, day);
        if (table.Nights[sitting] > 0)
        {
            for (var night = day; night < next && night < damp.Length - 1; night++)
            {
                next += damp[night + 1] - damp[night];
            }
        }

        return next;
    }

    public void NotBefore(int sitting, int day) => bounds[sitting] = day;

    /// <summary>Sittings from one on may take any day their nights allow.</summary>
    public void Free(int batch, int from) =>
        bounds.AsSpan(table.First[batch] + from, table.Sittings(batch) - from).Clear();

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
            var sitting = table.First[batch] + k;
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
        var sitting = table.First[batch] + k;
        var from = k == 0 ? releases[batch] : DayAfter(sitting - 1, days[sitting - 1]);
        var day = FirstDay(sitting, Math.Max(Math.Max(from, bounds[sitting]), table.Pinned[sitting]));
        var isStuck =
            day >= table.Days
            || (table.Pinned[sitting] != WorkTable.NoDay && day > table.Pinned[sitting])
            || (
                k == 0
                && (
                    day - damp[day] > table.Batches[batch].LatestStart
                    || (table.Batches[batch].OnRack && bench.Rack.LastBlocked(table.Blanks[batch], 0, day) is not null)
                )
            );
        return isStuck ? null : day;
    }

    /// <summary>The first day the sitting before must be put off to; null where it may stay.</summary>
    private int? BoundBefore(int batch, int k, int day)
    {
        var before = table.First[batch] + k - 1;
        if (k == 0)
        {
            return null;
        }

        // A damp night does not count among the most either.
        var rested = day - days[before] - (damp[day] - damp[days[before]]);
        if (rested > table.Most[before])
        {
            return days[before] + rested - table.Most[before];
        }

        return IsWholeStay ? bench.Rack.LastBlocked(table.Blanks[batch], days[before], day) + 1 : null;
    }

    private int? BlockedAfter(int batch, int k, int day) =>
        bench.Rack.LastBlocked(table.Blanks[batch], day, day + NightsCharged(table, batch, k));

    /// <summary>Nights on the rack that a sitting brings by itself; a whole stay is charged up to the next one.</summary>
    private int NightsCharged(WorkTable of, int batch, int k)
    {
        var sitting = of.First[batch] + k;
        return !IsWholeStay ? of.Nights[sitting]
            : k == of.Sittings(batch) - 1 ? of.Gap[sitting]
            : 0;
    }

    public void Put(int batch, int k, int day)
    {
        var sitting = table.First[batch] + k;
        days[sitting] = day;
        people[sitting] =
            planned[sitting] >= 0 && bench.HasTime(sitting, day, planned[sitting])
                ? planned[sitting]
                : bench.PersonFor(sitting, day);
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

    /// <summary>Charges a sitting of a batch that is not in this workload, or takes its charge back where the sign is -1.</summary>
    /// <param name="others">The work it is of, on the same bench.</param>
    public void ChargeOther(WorkTable others, int sitting, ReadOnlySpan<int> theirDays, int person, int sign) =>
        Charge(
            others,
            others.BatchOf[sitting],
            sitting - others.First[others.BatchOf[sitting]],
            theirDays,
            person,
            sign
        );

    private void Charge(int batch, int k, int sign) =>
        Charge(table, batch, k, days, people[table.First[batch] + k], sign);

    private void Charge(WorkTable of, int batch, int k, ReadOnlySpan<int> theirDays, int person, int sign)
    {
        var (sitting, blanks) = (of.First[batch] + k, sign * of.Blanks[batch]);
        var day = theirDays[sitting];
        bench.ChargeDay(of, sitting, day, person, sign);
        bench.Rack.ChargeNights(day, day + NightsCharged(of, batch, k), blanks);
        if (k == 0 && of.Batches[batch].OnRack)
        {
            bench.Rack.ChargeNights(0, day, blanks);
        }
        else if (k > 0 && IsWholeStay)
        {
            bench.Rack.ChargeNights(theirDays[sitting - 1], day, blanks);
        }
    }

    /// <summary>The first day from one on that offers what a sitting needs; the horizon where none does.</summary>
    private int FirstDay(int sitting, int from)
    {
        var day = from;
        while (day < table.Days && !bench.Fits(sitting, day))
        {
            day++;
        }

        return day;
    }
}

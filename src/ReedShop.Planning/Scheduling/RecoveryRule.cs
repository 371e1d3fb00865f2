namespace ReedShop.Planning.Scheduling;

/// <summary>
/// What a maker does after a damp night or a lost evening, as a rule. Sittings keep their order: each in turn stays on
/// its day or is pushed right to the next that its nights, the open minutes and the rack allow. What would then be late
/// is pulled forward into free evenings, its last sittings first. One construction, no search, and where nothing
/// happened nothing moves. One instance serves one thread: it owns what it works on, so that thousands of draws make
/// no garbage.
/// </summary>
public sealed class RecoveryRule
{
    /// <summary>Stands for a sitting without a day, and for a batch that is not there yet.</summary>
    public const int NoDay = int.MinValue;

    private readonly WorkTable table;
    private readonly RecoveryDays days;
    private readonly int[] order;
    private readonly int[] standing;
    private readonly int[] firstOfDay;
    private readonly int[] saved;
    private readonly int[] pushed;

    public RecoveryRule(Workload workload)
    {
        table = new WorkTable(workload);
        days = new RecoveryDays(table);
        (order, standing, saved) = (
            new int[table.Minutes.Length],
            new int[table.Minutes.Length],
            new int[table.Minutes.Length]
        );
        pushed = new int[table.Minutes.Length];
        firstOfDay = new int[table.Days + 1];
    }

    /// <summary>Sittings of all batches, in the order of the workload.</summary>
    public int Sittings => table.Minutes.Length;

    /// <summary>The plan recovered. Batches without days in it are placed last; those that find no place are missing.</summary>
    public static Plan Recover(Workload work, Plan standing)
    {
        var rule = new RecoveryRule(work);
        rule.KeepPeople(standing);
        var recovered = new int[rule.Sittings];
        rule.Recover(rule.DaysOf(standing), [.. work.OpenMinutes], rule.table.Release, recovered);
        var plan = rule.ToPlan(recovered);
        return work.People == 1 ? plan : plan with { People = rule.People(plan) };
    }

    /// <summary>
    /// Recovers one draw: the days as they should be now, <see cref="NoDay"/> for batches without a place.
    /// </summary>
    /// <param name="stand">
    /// The day of every sitting as it stood, in the order of the workload; below 0 for one that passed undone.
    /// </param>
    /// <param name="openMinutes">Of each day of the workload: a lost evening has none.</param>
    /// <param name="releaseDays">
    /// Of each batch, 0 or later: a damp night puts it off by one. <see cref="NoDay"/> for one that is not there yet.
    /// </param>
    /// <param name="dampNights">By the day before each night: true where it leaves the blanks damp. None if empty.</param>
    public void Recover(
        ReadOnlySpan<int> stand,
        ReadOnlySpan<int> openMinutes,
        ReadOnlySpan<int> releaseDays,
        Span<int> recovered,
        ReadOnlySpan<bool> dampNights = default
    )
    {
        days.Clear(openMinutes, releaseDays, dampNights);
        stand.CopyTo(standing);
        PushRight();
        PlaceOthers();
        Tell(pushed);
        PullForward();
        Tell(recovered);
    }

    /// <summary>
    /// Recovers batches among others whose days in this draw are known and stay: each sitting meets those that stood
    /// before it, as it would if all were recovered.
    /// </summary>
    internal void RecoverAmong(StandingDays others, ReadOnlySpan<int> stand, ReadOnlySpan<int> releaseDays)
    {
        days.Clear(others.OpenMinutes, releaseDays, others.DampNights);
        stand.CopyTo(standing);
        var (count, next) = (Sort(), 0);
        foreach (var sitting in order.AsSpan(0, count))
        {
            next = others.Meet(days, next, standing[sitting]);
            PushRight(sitting);
        }

        others.MeetRest(days, next);
        PlaceOthers();
        others.Pull(days);
        PullForward();
    }

    /// <summary>After a draw: what it gave all batches, those that joined it among them.</summary>
    internal StandingDays Keep(StandingWork work, ReadOnlySpan<int> openMinutes, ReadOnlySpan<bool> dampNights)
    {
        var final = new int[Sittings];
        Tell(final);
        return new StandingDays(work, [.. openMinutes], [.. dampNights], [.. pushed], final, [.. days.People]);
    }

    /// <summary>What draws of these batches are kept by, from the days of a plan.</summary>
    internal StandingWork Standing(ReadOnlySpan<int> stand)
    {
        stand.CopyTo(standing);
        return new StandingWork(table, [.. stand], order[..Sort()]);
    }

    private void Tell(Span<int> recovered)
    {
        for (var sitting = 0; sitting < recovered.Length; sitting++)
        {
            var batch = table.BatchOf[sitting];
            recovered[sitting] = days.IsPlaced(batch) ? days[sitting] : NoDay;
        }
    }

    /// <summary>
    /// After a draw was recovered: a batch that was not there takes the first days that the others leave, from a day on;
    /// null where there are none. Whoever comes first is served first.
    /// </summary>
    /// <returns>The day it is finished.</returns>
    public int? Join(int batch, int releaseDay)
    {
        days.Release(batch, releaseDay);
        days.Free(batch, 0);
        if (days.Settle(batch, table.Sittings(batch)))
        {
            return days.Finish(batch);
        }

        days.TakeBack(batch, 0);
        return null;
    }

    /// <summary>In the draw as it stands: whether a batch found its days.</summary>
    public bool IsPlaced(int batch) => days.IsPlaced(batch);

    /// <summary>In the draw as it stands: the day of a sitting, counted within its batch.</summary>
    public int DayOf(int batch, int sitting) => days[table.First[batch] + sitting];

    /// <summary>In the draw as it stands: the day the nights after a sitting are over.</summary>
    public int DayAfter(int batch, int sitting) =>
        days.DayAfter(table.First[batch] + sitting, days[table.First[batch] + sitting]);

    /// <summary>Who the plan gave its sittings to does them still, where they have the minutes.</summary>
    public void KeepPeople(Plan plan)
    {
        foreach (var (id, people) in plan.People)
        {
            if (table.Number.TryGetValue(id, out var batch) && people.Length == table.Sittings(batch))
            {
                days.Plan(batch, people);
            }
        }
    }

    /// <summary>The days of a plan in the order of the workload.</summary>
    public int[] DaysOf(Plan plan)
    {
        var flat = new int[table.Minutes.Length];
        Array.Fill(flat, NoDay);
        for (var batch = 0; batch < table.Batches.Length; batch++)
        {
            if (plan.Days.TryGetValue(table.Batches[batch].Id, out var told) && told.Length == table.Sittings(batch))
            {
                told.CopyTo(flat, table.First[batch]);
            }
        }

        return flat;
    }

    public Plan ToPlan(int[] recovered) =>
        new(
            Enumerable
                .Range(0, table.Batches.Length)
                .Where(batch => recovered[table.First[batch]] != NoDay)
                .ToDictionary(
                    batch => table.Batches[batch].Id,
                    batch => recovered[table.First[batch]..table.First[batch + 1]],
                    StringComparer.Ordinal
                )
        );

    private Dictionary<string, int[]> People(Plan plan) =>
        plan.Days.Keys.ToDictionary(id => id, id => days.PeopleOf(table.Number[id]).ToArray(), StringComparer.Ordinal);

    /// <summary>In the order of their days; a batch whose next sitting found no day is left for later as a whole.</summary>
    private void PushRight()
    {
        var count = Sort();
        foreach (var sitting in order.AsSpan(0, count))
        {
            PushRight(sitting);
        }
    }

    private void PushRight(int sitting)
    {
        var (batch, k) = (table.BatchOf[sitting], sitting - table.First[table.BatchOf[sitting]]);
        days.NotBefore(sitting, Math.Max(0, standing[sitting]));
        if (days.Placed(batch) == k && !days.Settle(batch, k + 1))
        {
            days.TakeBack(batch, 0);
        }
    }

    /// <summary>Counts the sittings of each day, which sorts them without comparing any two.</summary>
    private int Sort()
    {
        Array.Clear(firstOfDay);
        foreach (var day in standing)
        {
            if (day != NoDay)
            {
                firstOfDay[Math.Clamp(day, 0, table.Days - 1) + 1]++;
            }
        }

        for (var day = 1; day <= table.Days; day++)
        {
            firstOfDay[day] += firstOfDay[day - 1];
        }

        var count = firstOfDay[table.Days];
        for (var sitting = 0; sitting < standing.Length; sitting++)
        {
            if (standing[sitting] != NoDay)
            {
                order[firstOfDay[Math.Clamp(standing[sitting], 0, table.Days - 1)]++] = sitting;
            }
        }

        return count;
    }

    private void PlaceOthers()
    {
        foreach (var batch in table.ByDue)
        {
            if (!days.IsPlaced(batch) && days.IsThere(batch))
            {
                days.TakeBack(batch, 0);
                days.Free(batch, 0);
                if (!days.Settle(batch, table.Sittings(batch)))
                {
                    days.TakeBack(batch, 0);
                }
            }
        }
    }

    private void PullForward()
    {
        foreach (var batch in table.ByDue)
        {
            for (var k = table.Sittings(batch) - 1; k >= 0 && IsLate(batch); k--)
            {
                Pull(batch, k);
            }
        }
    }

    private bool IsLate(int batch) => days.IsPlaced(batch) && days.Finish(batch) > table.Batches[batch].DueDay;

    /// <summary>Sittings from one on take the first evenings they can, if that ends the batch sooner.</summary>
    private void Pull(int batch, int from)
    {
        var finish = days.Finish(batch);
        days.Of(batch).CopyTo(saved);
        days.TakeBack(batch, from);
        for (var k = 0; k < from; k++)
        {
            days.NotBefore(table.First[batch] + k, saved[k]);
        }

        days.Free(batch, from);
        if (!days.Settle(batch, table.Sittings(batch)) || days.Finish(batch) >= finish)
        {
            days.TakeBack(batch, 0);
            for (var k = 0; k < table.Sittings(batch); k++)
            {
                days.Put(batch, k, saved[k]);
            }
        }
    }
}

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
    /// <summary>Stands for a sitting without a day.</summary>
    public const int NoDay = int.MinValue;

    private readonly RecoveryWork work;
    private readonly RecoveryDays days;
    private readonly int[] order;
    private readonly int[] standing;
    private readonly int[] firstOfDay;
    private readonly int[] saved;

    public RecoveryRule(Workload workload)
    {
        work = new RecoveryWork(workload);
        days = new RecoveryDays(work);
        (order, standing, saved) = (new int[work.Sittings], new int[work.Sittings], new int[work.Sittings]);
        firstOfDay = new int[work.Days + 1];
    }

    /// <summary>Sittings of all batches, in the order of the workload.</summary>
    public int Sittings => work.Sittings;

    /// <summary>The plan recovered. Batches without days in it are placed last; those that find no place are missing.</summary>
    public static Plan Recover(Workload work, Plan standing)
    {
        var rule = new RecoveryRule(work);
        var recovered = new int[rule.Sittings];
        rule.Recover(rule.DaysOf(standing), rule.work.OpenMinutes, rule.work.Releases, recovered);
        return rule.ToPlan(recovered);
    }

    /// <summary>
    /// Recovers one draw: the days as they should be now, <see cref="NoDay"/> for batches without a place.
    /// </summary>
    /// <param name="stand">
    /// The day of every sitting as it stood, in the order of the workload; below 0 for one that passed undone.
    /// </param>
    /// <param name="openMinutes">Of each day of the workload: a lost evening has none.</param>
    /// <param name="releaseDays">Of each batch, 0 or later: a damp night puts it off by one.</param>
    public void Recover(
        ReadOnlySpan<int> stand,
        ReadOnlySpan<int> openMinutes,
        ReadOnlySpan<int> releaseDays,
        Span<int> recovered
    )
    {
        days.Clear(openMinutes, releaseDays);
        stand.CopyTo(standing);
        PushRight();
        PlaceOthers();
        PullForward();
        for (var sitting = 0; sitting < recovered.Length; sitting++)
        {
            var batch = work.BatchOf[sitting];
            recovered[sitting] = days.IsPlaced(batch) ? days[sitting] : NoDay;
        }
    }

    /// <summary>The days of a plan in the order of the workload.</summary>
    public int[] DaysOf(Plan plan)
    {
        var flat = new int[work.Sittings];
        Array.Fill(flat, NoDay);
        for (var batch = 0; batch < work.Batches.Length; batch++)
        {
            if (plan.Days.TryGetValue(work.Batches[batch].Id, out var told) && told.Length == work.Count(batch))
            {
                told.CopyTo(flat, work.First[batch]);
            }
        }

        return flat;
    }

    public Plan ToPlan(int[] recovered) =>
        new(
            Enumerable
                .Range(0, work.Batches.Length)
                .Where(batch => recovered[work.First[batch]] != NoDay)
                .ToDictionary(
                    batch => work.Batches[batch].Id,
                    batch => recovered[work.First[batch]..work.First[batch + 1]],
                    StringComparer.Ordinal
                )
        );

    /// <summary>In the order of their days; a batch whose next sitting found no day is left for later as a whole.</summary>
    private void PushRight()
    {
        var count = Sort();
        foreach (var sitting in order.AsSpan(0, count))
        {
            var (batch, k) = (work.BatchOf[sitting], sitting - work.First[work.BatchOf[sitting]]);
            days.NotBefore(sitting, Math.Max(0, standing[sitting]));
            if (days.Placed(batch) == k && !days.Settle(batch, k + 1))
            {
                days.TakeBack(batch, 0);
            }
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
                firstOfDay[Math.Clamp(day, 0, work.Days - 1) + 1]++;
            }
        }

        for (var day = 1; day <= work.Days; day++)
        {
            firstOfDay[day] += firstOfDay[day - 1];
        }

        var count = firstOfDay[work.Days];
        for (var sitting = 0; sitting < standing.Length; sitting++)
        {
            if (standing[sitting] != NoDay)
            {
                order[firstOfDay[Math.Clamp(standing[sitting], 0, work.Days - 1)]++] = sitting;
            }
        }

        return count;
    }

    private void PlaceOthers()
    {
        foreach (var batch in work.ByDue)
        {
            if (!days.IsPlaced(batch))
            {
                days.TakeBack(batch, 0);
                days.Free(batch, 0);
                if (!days.Settle(batch, work.Count(batch)))
                {
                    days.TakeBack(batch, 0);
                }
            }
        }
    }

    private void PullForward()
    {
        foreach (var batch in work.ByDue)
        {
            for (var k = work.Count(batch) - 1; k >= 0 && IsLate(batch); k--)
            {
                Pull(batch, k);
            }
        }
    }

    private bool IsLate(int batch) => days.IsPlaced(batch) && days.Finish(batch) > work.Batches[batch].DueDay;

    /// <summary>Sittings from one on take the first evenings they can, if that ends the batch sooner.</summary>
    private void Pull(int batch, int from)
    {
        var finish = days.Finish(batch);
        days.Of(batch).CopyTo(saved);
        days.TakeBack(batch, from);
        for (var k = 0; k < from; k++)
        {
            days.NotBefore(work.First[batch] + k, saved[k]);
        }

        days.Free(batch, from);
        if (!days.Settle(batch, work.Count(batch)) || days.Finish(batch) >= finish)
        {
            days.TakeBack(batch, 0);
            for (var k = 0; k < work.Count(batch); k++)
            {
                days.Put(batch, k, saved[k]);
            }
        }
    }
}

namespace ReedShop.Planning.Scheduling;

/// <summary>What of a plan still holds under a changed workload.</summary>
internal static class Replanning
{
    private const int DaysWorthMoving = 7;

    /// <summary>
    /// Keeps every batch whose days still obey the rules, gives the others their cheapest place among those kept, and
    /// looks once for a better place of those that are late. Where days clash, the earliest due keeps its own.
    /// </summary>
    public static void Keep(Draft draft, Plan current)
    {
        draft.Clear();
        var batches = draft.Table.ByDue;
        foreach (var batch in batches)
        {
            TryKeep(draft, batch, current);
        }

        foreach (var batch in batches.Where(batch => !draft.IsPlanned(batch)))
        {
            draft.Place(batch);
        }

        foreach (var batch in batches.Where(draft.IsLate))
        {
            draft.Improve(batch);
        }
    }

    /// <summary>The plan by the recovery rule; what it finds no place for takes its cheapest one.</summary>
    public static Draft Recovered(Draft empty, Plan current)
    {
        var recovered = RecoveryRule.Recover(empty.Table.Work, current);
        foreach (var batch in empty.Table.ByDue)
        {
            if (recovered.Days.TryGetValue(empty.Table.Batches[batch].Id, out var days))
            {
                empty.Put(batch, days, recovered.PeopleOf(empty.Table.Batches[batch].Id));
            }
        }

        foreach (var batch in empty.Table.ByDue.Where(batch => !empty.IsPlanned(batch)))
        {
            empty.Place(batch);
        }

        return empty;
    }

    /// <summary>
    /// Work that nobody waits for may have made way far into the months ahead, and nothing that is new to it would bring it
    /// back: it takes free evenings again, where its days are too far off to have been told.
    /// </summary>
    public static void FetchBack(Draft draft)
    {
        foreach (var batch in draft.Table.ByDue.Where(batch => IsFarOff(draft, batch)))
        {
            var finish = draft.Finish(batch);
            var kept = new Places(draft.Table);
            kept.CopyFrom(draft.Places, batch);
            draft.Take(batch);
            if (!draft.PlaceEarliest(batch) || draft.Finish(batch) > finish - DaysWorthMoving)
            {
                if (draft.IsPlanned(batch))
                {
                    draft.Take(batch);
                }

                draft.Put(batch, kept);
            }
        }
    }

    private static bool IsFarOff(Draft draft, int batch) =>
        draft.Table.Batches[batch].DueDay is null && draft.IsPlanned(batch) && draft.Start(batch) > Announced.LastDay;

    public static void PutBack(Draft draft, int batch, Plan told)
    {
        var kept = new Places(draft.Table);
        kept.CopyFrom(draft.Places, batch);
        draft.Take(batch);
        if (!TryKeep(draft, batch, told))
        {
            draft.Put(batch, kept);
        }
    }

    /// <summary>All planned, none late: nothing is left to search for.</summary>
    public static bool IsSettled(Draft draft) =>
        Enumerable.Range(0, draft.Table.Batches.Length).All(batch => draft.IsPlanned(batch) && !draft.IsLate(batch));

    /// <summary>Gives a batch the days it had if they obey the rules and find room.</summary>
    private static bool TryKeep(Draft draft, int batch, Plan current)
    {
        var work = draft.Table.Batches[batch];
        var days = current.Days.GetValueOrDefault(work.Id) ?? [];
        return days.Length == work.Sittings.Count
            && !BatchRules.Check(draft.Table.Work, work, days).Any()
            && draft.TryPut(batch, days, current.PeopleOf(work.Id));
    }
}

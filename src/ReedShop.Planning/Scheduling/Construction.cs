namespace ReedShop.Planning.Scheduling;

/// <summary>Plans made batch by batch, and passes that justify them.</summary>
internal static class Construction
{
    private const int MostPasses = 6;

    /// <summary>The best of a few plain constructions, each justified.</summary>
    public static void Best(Draft draft, Draft spare)
    {
        EarliestDueFirst(draft);
        Justify(draft);
        LatestDueFirst(spare);
        Justify(spare);
        if (spare.Cost < draft.Cost)
        {
            draft.CopyFrom(spare);
        }
    }

    /// <summary>Each batch as soon as it can be, the earliest due first.</summary>
    public static void EarliestDueFirst(Draft draft)
    {
        draft.Clear();
        foreach (var batch in ByDue(draft.Table))
        {
            draft.PlaceEarliest(batch);
        }
    }

    /// <summary>Each batch as late as its due day allows, the latest due first.</summary>
    public static void LatestDueFirst(Draft draft)
    {
        draft.Clear();
        foreach (var batch in ByDue(draft.Table).Reverse().OrderBy(batch => Rank(draft.Table.Batches[batch])))
        {
            draft.Place(batch);
        }
    }

    /// <summary>
    /// Every batch in turn moves to its cheapest place among the others: the last to finish first, which shifts plans
    /// to the right, then the first to start, which pulls late ones to the left. The cost never rises.
    /// </summary>
    public static void Justify(Draft draft)
    {
        var order = Enumerable.Range(0, draft.Table.Batches.Length).Where(draft.IsPlanned).ToArray();
        var keys = new int[order.Length];
        for (var pass = 0; pass < MostPasses; pass++)
        {
            var before = draft.Cost;
            for (var i = 0; i < order.Length; i++)
            {
                keys[i] = pass % 2 == 0 ? -draft.Finish(order[i]) : draft.Start(order[i]);
            }

            Array.Sort(keys, order);
            foreach (var batch in order)
            {
                draft.Improve(batch);
            }

            if (pass > 0 && draft.Cost == before)
            {
                return;
            }
        }
    }

    /// <summary>Batches in the order they are due; those with days of their own, or on the rack already, come first.</summary>
    public static IEnumerable<int> ByDue(WorkTable table) =>
        from batch in Enumerable.Range(0, table.Batches.Length)
        let work = table.Batches[batch]
        orderby Rank(work), work.DueDay is null, work.DueDay ?? work.ReleaseDay, work.Id
        select batch;

    private static int Rank(WorkBatch batch)
    {
        if (batch.Sittings.Any(sitting => sitting.PinnedDay is not null))
        {
            return 0;
        }

        return batch.OnRack ? 1 : 2;
    }
}

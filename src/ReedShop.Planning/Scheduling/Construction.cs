namespace ReedShop.Planning.Scheduling;

/// <summary>Plans made batch by batch, and passes that justify them.</summary>
internal static class Construction
{
    private const int MostPasses = 6;

    /// <summary>The best of a few plain constructions, each justified.</summary>
    public static Draft Best(WorkTable table, Aim[] aims)
    {
        var soon = new Draft(table, aims);
        EarliestDueFirst(soon);
        Justify(soon);
        var late = soon.Empty();
        LatestDueFirst(late);
        Justify(late);
        return late.Cost < soon.Cost ? late : soon;
    }

    /// <summary>Each batch as soon as it can be, the earliest due first.</summary>
    public static void EarliestDueFirst(Draft draft)
    {
        draft.Clear();
        foreach (var batch in draft.Table.ByDue)
        {
            draft.PlaceEarliest(batch);
        }
    }

    /// <summary>Each batch as late as its due day allows, the latest due first.</summary>
    public static void LatestDueFirst(Draft draft)
    {
        draft.Clear();
        foreach (var batch in draft.Table.ByDue.Reverse())
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
}

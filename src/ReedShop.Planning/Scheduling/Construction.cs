namespace ReedShop.Planning.Scheduling;

/// <summary>Plans made batch by batch, and passes that justify them.</summary>
internal static class Construction
{
    private const int MostPasses = 6;
    private const int Scale = PlacementTable.Scale;

    /// <summary>What a set-up minute weighs in a construction: nothing but a tie, a little, or more than lateness.</summary>
    private static readonly Lean[] Leans = [Lean.None, new(10 * Scale, 0, 0), new(200 * Scale, 0, 0)];

    /// <summary>
    /// The best of a few plain constructions, each justified: no order of the batches is the best for every bench, and
    /// on a full one it pays to draw together work that shares its set-ups.
    /// </summary>
    public static Draft Best(WorkTable table, Aim[] aims)
    {
        Action<Draft>[] constructions =
        [
            EarliestDueFirst,
            .. from order in Orders(table) from lean in Leans select InTurn(order, lean),
        ];
        var drafts = new Draft[constructions.Length];
        Parallel.For(0, drafts.Length, c => drafts[c] = Justified(new Draft(table, aims), constructions[c]));
        return drafts.MinBy(draft => draft.Cost)!;
    }

    /// <summary>Each batch as soon as it can be, the earliest due first.</summary>
    public static void EarliestDueFirst(Draft draft)
    {
        foreach (var batch in draft.Table.ByDue)
        {
            draft.PlaceEarliest(batch);
        }
    }

    private static Draft Justified(Draft draft, Action<Draft> construct)
    {
        construct(draft);
        Justify(draft);
        return draft;
    }

    /// <summary>Each batch at its cheapest place among those before it.</summary>
    private static Action<Draft> InTurn(int[] order, Lean lean) =>
        draft =>
        {
            foreach (var batch in order)
            {
                draft.Place(batch, long.MaxValue, lean);
            }
        };

    /// <summary>By the day to begin at, by due day with heavy batches two weeks ahead, and the latest due first.</summary>
    private static IEnumerable<int[]> Orders(WorkTable table)
    {
        yield return InOrder(table, (batch, due) => due - batch.LeastStay);
        yield return InOrder(table, (batch, due) => due - (14 * Math.Min(batch.Weight - 1, 4)));
        yield return InOrder(table, (_, due) => -due);
    }

    /// <summary>Batches that cannot give way keep their rank, whatever the order of the others.</summary>
    private static int[] InOrder(WorkTable table, Func<WorkBatch, int, int> rank) =>
        [
            .. from batch in table.ByDue
            let work = table.Batches[batch]
            orderby !WorkTable.IsBound(work), rank(work, work.DueDay ?? table.Days)
            select batch,
        ];

    /// <summary>
    /// Every batch in turn moves to its cheapest place among the others: the last to finish first, which shifts plans
    /// to the right, then the first to start, which pulls late ones to the left. The cost never rises. Ends when all
    /// were tried since the last that moved.
    /// </summary>
    public static void Justify(Draft draft)
    {
        var order = Enumerable.Range(0, draft.Table.Batches.Length).Where(draft.IsPlanned).ToArray();
        var keys = new int[order.Length];
        var sinceMoved = 0;
        for (var pass = 0; pass < MostPasses && sinceMoved < order.Length; pass++)
        {
            for (var i = 0; i < order.Length; i++)
            {
                keys[i] = pass % 2 == 0 ? -draft.Finish(order[i]) : draft.Start(order[i]);
            }

            Array.Sort(keys, order);
            for (var i = 0; i < order.Length && sinceMoved < order.Length; i++)
            {
                var hasMoved = draft.CostOf(order[i]) > 0 && draft.Improve(order[i]);
                sinceMoved = hasMoved ? 0 : sinceMoved + 1;
            }
        }
    }
}

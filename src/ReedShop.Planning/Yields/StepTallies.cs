namespace ReedShop.Planning.Yields;

/// <summary>Plain sums of the history: what stands behind a figure, and how often blanks are worked again.</summary>
internal sealed class StepTallies
{
    // A step is believed to send one blank in ten back, with the weight of ten blanks, until it shows otherwise; a model
    // is believed to be like the others in the same way.
    private const double SoberRedo = 0.1;
    private const double SoberBlanks = 10;

    private readonly ILookup<string, (double Weight, StepCount Count)> rows;

    public StepTallies(IEnumerable<(double Weight, StepCount Count)> counts) =>
        rows = counts.ToLookup(row => row.Count.Step, StringComparer.OrdinalIgnoreCase);

    /// <summary>A step yield of a model with what stands behind it.</summary>
    public StepYield Describe(
        string model,
        string step,
        IReadOnlyList<double> weights,
        IReadOnlyList<SurvivalMix> nodes
    )
    {
        var own = rows[step].Where(row => row.Count.Model == model).ToArray();
        return new StepYield(weights, nodes)
        {
            Batches = Batches(own),
            Blanks = own.Sum(row => row.Count.In),
            OtherBatches = Batches(rows[step].Where(row => row.Count.Model != model)),
            RedoChance = Redo(own, Redo(rows[step], SoberRedo)),
        };
    }

    private static double Redo(IEnumerable<(double Weight, StepCount Count)> rows, double believed) =>
        rows.Aggregate(
            (Redo: believed * SoberBlanks, In: SoberBlanks),
            (sum, row) => (sum.Redo + (row.Weight * row.Count.Redo), sum.In + (row.Weight * row.Count.In)),
            sum => sum.Redo / sum.In
        );

    private static int Batches(IEnumerable<(double Weight, StepCount Count)> rows) =>
        rows.Select(row => row.Count.Batch).Distinct(StringComparer.Ordinal).Count();
}

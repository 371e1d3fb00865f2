namespace ReedShop.Planning.Yields;

/// <summary>
/// The grades of the history, level by level, in quarter steps: a reed is as hard as its aim, and the bias of its model,
/// and the shifts of its cane lot and of its batch, and its own scatter within the batch; then it is sorted.
/// </summary>
internal sealed class GradeEvidence
{
    // What other models show of the spreads counts this much: the hands are the same, the cut is not.
    private const double WeightOfOtherModels = 0.25;
    private const double SpreadOfBias = 1.5;
    private const double Negligible = 1e-6;

    // How much lots differ, and batches of one lot, is itself uncertain. Weights of our own choice.
    private static readonly Spread[] Spreads =
    [
        new(0.15, GradeShares.Offsets.Kernel(0.15), GradeShares.Offsets.Kernel(0.3)),
        new(0.25, GradeShares.Offsets.Kernel(0.25), GradeShares.Offsets.Kernel(0.5)),
        new(0.25, GradeShares.Offsets.Kernel(0.4), GradeShares.Offsets.Kernel(0.8)),
        new(0.2, GradeShares.Offsets.Kernel(0.6), GradeShares.Offsets.Kernel(1.2)),
        new(0.15, GradeShares.Offsets.Kernel(0.9), GradeShares.Offsets.Kernel(1.8)),
    ];

    private readonly GradeShares shares;
    private readonly ILookup<string, Seen> models;
    private readonly Dictionary<string, double[]> logFits;

    public GradeEvidence(IReadOnlyList<BatchGrades> history, DateOnly today, YieldSettings settings)
    {
        shares = new GradeShares(settings.QuartersBetweenGrades);
        models = history.ToLookup(
            batch => batch.Model,
            batch => new Seen(batch, settings.Weight(batch.Day, today), Array.ConvertAll(shares.Logs(batch), Scaled)),
            StringComparer.Ordinal
        );
        logFits = models.ToDictionary(
            model => model.Key,
            model => Array.ConvertAll(Cells(model, ""), cell => cell.LogFit),
            StringComparer.Ordinal
        );
    }

    public static GradeEvidence None { get; } = new([], default, YieldSettings.Default);

    /// <summary>Where reeds of a model, made from a lot and worked toward an aim, land in the next batch.</summary>
    public GradeMix Mix(string model, string lot, Strength aim)
    {
        var cells = Cells(models[model], lot);
        var weights = Array.ConvertAll(cells, cell => cell.LogFit);
        foreach (var (_, logFit) in logFits.Where(other => other.Key != model))
        {
            Grid.Add(weights, logFit, WeightOfOtherModels);
        }

        Grid.Exp(weights);
        Grid.Scale(weights);
        return new GradeMix(Nodes(cells, weights, shares.Of(aim)))
        {
            Batches = models[model].Count(),
            Reeds = models[model].Sum(seen => seen.Batch.Counts.Values.Sum()),
        };
    }

    private static GradeNode[] Nodes(Cell[] cells, double[] weights, double[][][] shares)
    {
        var laws = Array.ConvertAll(shares, byOffset => new double[byOffset.Length]);
        for (var i = 0; i < cells.Length; i++)
        {
            Grid.Add(laws[cells[i].Reed], cells[i].Next, weights[i]);
        }

        var kept = laws.Sum(law => law.Where(weight => weight > Negligible).Sum());
        return
        [
            .. from reed in Enumerable.Range(0, laws.Length)
            from u in Enumerable.Range(0, laws[reed].Length)
            where laws[reed][u] > Negligible
            select new GradeNode(laws[reed][u] / kept, shares[reed][u]),
        ];
    }

    /// <summary>The next batch of a lot for every pair of spreads, within a batch and between batches.</summary>
    private static Cell[] Cells(IEnumerable<Seen> history, string lot)
    {
        // A batch of which no lot was written down is taken for one of its own.
        var lots = history
            .GroupBy(seen => (seen.Batch.CaneLot, seen.Batch.CaneLot is null ? seen.Batch.Batch : ""))
            .ToLookup(group => group.Key.CaneLot == lot, group => group.ToArray());
        return
        [
            .. from reed in Enumerable.Range(0, GradeShares.ReedSpreads.Length)
            from spread in Spreads
            select Next(lots, reed, spread),
        ];
    }

    /// <summary>From the bias of the model, past its other lots, down to the lot and its next batch.</summary>
    private static Cell Next(ILookup<bool, Seen[]> lots, int reed, Spread spread)
    {
        var law = GradeShares.Offsets.Normal(0, SpreadOfBias);
        var logFit = Math.Log(GradeShares.ReedSpreads[reed].Weight * spread.Weight);
        foreach (var other in lots[false].Select(batches => OfLot(batches, reed, spread.Batch)))
        {
            logFit += other.Log + Grid.Weigh(law, Grid.Up(spread.Lot, other.Values));
        }

        law = Grid.Down(spread.Lot, law);
        foreach (var own in lots[true].Select(batches => OfLot(batches, reed, spread.Batch)))
        {
            logFit += own.Log + Grid.Weigh(law, own.Values);
        }

        return new Cell(reed, logFit, Grid.Down(spread.Batch, law));
    }

    /// <summary>How likely a place of the lot makes the grades of its batches.</summary>
    private static Likelihood OfLot(Seen[] batches, int reed, double[][] batchKernel)
    {
        var logs = new double[GradeShares.Offsets.Count];
        foreach (var (_, weight, byReedSpread) in batches)
        {
            var (values, log) = byReedSpread[reed];
            Grid.Add(logs, Array.ConvertAll(Grid.Up(batchKernel, values), value => log + Math.Log(value)), weight);
        }

        return Scaled(logs);
    }

    private static Likelihood Scaled(double[] logs)
    {
        var log = Grid.Exp(logs);
        return new Likelihood(logs, log);
    }

    private sealed record Spread(double Weight, double[][] Lot, double[][] Batch);

    private sealed record Seen(BatchGrades Batch, double Weight, Likelihood[] ByReedSpread);

    /// <summary>One pair of spreads: how well it fits, and where the next batch lies if it holds.</summary>
    private sealed record Cell(int Reed, double LogFit, double[] Next);

    /// <summary>Likelihoods of which the largest is 1, and the logarithm taken out of them.</summary>
    private readonly record struct Likelihood(double[] Values, double Log);
}

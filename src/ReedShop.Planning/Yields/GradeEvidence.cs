namespace ReedShop.Planning.Yields;

/// <summary>
/// The grades of the history on a grid, in quarter steps: a reed is as hard as its aim, and the bias of its model, and
/// the shift of its batch, and its own scatter within the batch, and is sorted by limits midway between two grades.
/// </summary>
internal sealed class GradeEvidence
{
    // What other models show of the spreads counts this much: the hands are the same, the cut is not.
    private const double WeightOfOtherModels = 0.25;
    private const double SpreadOfBias = 1.5;
    private const double Negligible = 1e-5;

    // One reed in a thousand is graded or written down by mistake; no single reed may rule the estimate.
    private const double Slip = 0.001;

    private static readonly Grid Offsets = new(-6, 0.25, 49);
    private static readonly double[] Bias = Offsets.Normal(0, SpreadOfBias);

    private static readonly (double Weight, double[][] Kernel)[] BatchSpreads =
    [
        (0.2, Offsets.Kernel(0.3)),
        (0.35, Offsets.Kernel(0.6)),
        (0.3, Offsets.Kernel(1.0)),
        (0.15, Offsets.Kernel(1.7)),
    ];

    private static readonly (double Weight, double Quarters)[] ReedSpreads =
    [
        (0.1, 0.45),
        (0.25, 0.7),
        (0.3, 1.0),
        (0.25, 1.5),
        (0.1, 2.2),
    ];

    private readonly int between;
    private readonly IReadOnlyDictionary<string, Cell[]> models;
    private readonly IReadOnlyDictionary<string, int> batches;

    public GradeEvidence(IReadOnlyList<BatchGrades> history, DateOnly today, YieldSettings settings)
    {
        between = settings.QuartersBetweenGrades;
        var byModel = history.GroupBy(batch => batch.Model, StringComparer.Ordinal).ToArray();
        models = byModel.ToDictionary(
            model => model.Key,
            model => Cells([.. model.Select(batch => (settings.Weight(batch.Day, today), batch))]),
            StringComparer.Ordinal
        );
        batches = byModel.ToDictionary(model => model.Key, model => model.Count(), StringComparer.Ordinal);
    }

    public static GradeEvidence None { get; } = new([], default, YieldSettings.Default);

    /// <summary>Where reeds of a model worked toward an aim land in the next batch.</summary>
    public GradeMix Mix(string model, Strength aim)
    {
        var own = models.GetValueOrDefault(model) ?? Cells([]);
        var logs = own.Select(cell => cell.LogFit).ToArray();
        foreach (var other in models.Where(entry => entry.Key != model))
        {
            Grid.Add(logs, [.. other.Value.Select(cell => cell.LogFit)], WeightOfOtherModels);
        }

        Grid.Exp(logs);
        Grid.Scale(logs);
        return new GradeMix([
            .. own.Zip(logs)
                .GroupBy(pair => pair.First.Reed)
                .SelectMany(group => Nodes(group.Key, aim, [.. group.Select(pair => (pair.Second, pair.First.Next))])),
        ])
        {
            Batches = batches.GetValueOrDefault(model),
        };
    }

    public GradeMix Mix(Strength aim) => Mix("", aim);

    private IEnumerable<(double Weight, double[] Shares)> Nodes(
        double reed,
        Strength aim,
        (double Weight, double[] Law)[] laws
    )
    {
        var law = new double[Offsets.Count];
        foreach (var (weight, next) in laws)
        {
            Grid.Add(law, next, weight);
        }

        return from u in Enumerable.Range(0, law.Length)
            where law[u] > Negligible
            select (law[u], Shares(aim.Quarters + Offsets[u], reed));
    }

    /// <summary>The next batch, given one pair of spreads, for every pair.</summary>
    private Cell[] Cells((double Weight, BatchGrades Grades)[] history) =>
        [
            .. from reed in ReedSpreads
            let seen = history
                .Select(batch => (batch.Weight, Likelihood: Likelihood(batch.Grades, reed.Quarters)))
                .ToArray()
            from batch in BatchSpreads
            select Next(reed.Quarters, Math.Log(reed.Weight * batch.Weight), batch.Kernel, seen),
        ];

    private static Cell Next(
        double reed,
        double logFit,
        double[][] kernel,
        (double Weight, (double[] Values, double Log) Likelihood)[] seen
    )
    {
        var law = (double[])Bias.Clone();
        foreach (var (weight, (values, log)) in seen)
        {
            var up = Grid.Up(kernel, values);
            logFit += (weight * log) + Grid.Weigh(law, [.. up.Select(value => Math.Pow(value, weight))]);
        }

        return new Cell(reed, logFit, Grid.Down(kernel, law));
    }

    private (double[] Values, double Log) Likelihood(BatchGrades batch, double reed)
    {
        var logs = new double[Offsets.Count];
        for (var u = 0; u < logs.Length; u++)
        {
            var shares = Shares(batch.Aim.Quarters + Offsets[u], reed);
            logs[u] = batch.Counts.Sum(pair =>
                pair.Value * Math.Log(shares[pair.Key.Quarters - Strength.LeastQuarters])
            );
        }

        var log = Grid.Exp(logs);
        return (logs, log);
    }

    /// <summary>Share of every strength when reeds scatter around a centre, both in quarter steps.</summary>
    private double[] Shares(double centre, double reed)
    {
        var shares = new double[GradeMix.Count];
        Array.Fill(shares, Slip / GradeMix.Count);
        var below = 0.0;
        for (var quarters = Strength.LeastQuarters; quarters <= Strength.MostQuarters; quarters += between)
        {
            var last = quarters + between > Strength.MostQuarters;
            var upTo = last ? 1 : NormalLaw.Cdf((quarters + (between / 2.0) - centre) / reed);
            shares[quarters - Strength.LeastQuarters] += (1 - Slip) * (upTo - below);
            below = upTo;
        }

        return shares;
    }

    /// <summary>One pair of spreads: how well it fits, and where the next batch lies if it holds.</summary>
    private sealed record Cell(double Reed, double LogFit, double[] Next);
}

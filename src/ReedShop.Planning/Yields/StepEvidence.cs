namespace ReedShop.Planning.Yields;

/// <summary>What the counts say of a step, given the shifts of all lots.</summary>
/// <param name="Law">Weights by clumping and logit point, for one model made from a lot of shift 0; they sum to 1.</param>
/// <param name="LogFit">Logarithm of the probability of all counts of the step.</param>
internal sealed record StepPosterior(double[][] Law, double LogFit)
{
    private const double Negligible = 1e-7;
    private const double Noticeable = 1e-4;

    /// <summary>The survivors of the next batch from a lot shifted by so many points.</summary>
    public SurvivalMix Survivors(int shift) =>
        new(
            from c in Enumerable.Range(0, Law.Length)
            from point in Enumerable.Range(0, Law[c].Length)
            where Law[c][point] > Negligible
            select (Law[c][point], CountLikelihoods.Law(c, point + shift))
        );

    /// <summary>All survivors of batches from several lots, each shifted by a law of its own.</summary>
    public double[] Totals((double[] Shifts, int[] Sizes)[] lots)
    {
        var totals = new double[1 + lots.Sum(lot => lot.Sizes.Sum())];
        for (var c = 0; c < Law.Length; c++)
        {
            for (var point = 0; point < Law[c].Length; point++)
            {
                if (Law[c][point] > Noticeable)
                {
                    var laws = lots.Select(lot => OfLot(lot.Shifts, lot.Sizes, c, point));
                    Grid.Add(totals, laws.Aggregate(Grid.Convolve), Law[c][point]);
                }
            }
        }

        Grid.Scale(totals);
        return totals;
    }

    private static double[] OfLot(double[] shifts, int[] sizes, int clumping, int point)
    {
        var law = new double[1 + sizes.Sum()];
        for (var shift = 0; shift < shifts.Length; shift++)
        {
            if (shifts[shift] > Noticeable)
            {
                var batch = CountLikelihoods.Law(clumping, point + shift - CountLikelihoods.MostShift);
                Grid.Add(law, sizes.Select(batch.Row).Aggregate(Grid.Convolve), shifts[shift]);
            }
        }

        return law;
    }
}

/// <summary>
/// The counts of one step, level by level. In logits: a step has a mean over all models, a model stands around it, a
/// cane lot shifts it, and the batches of a lot scatter as beta-binomial counts. Sums over the grid replace integrals.
/// </summary>
internal sealed class StepEvidence
{
    private const double SpreadOfSteps = 1.0;
    private const double Impossible = 1e-300;

    // How much models differ is itself uncertain. Weights of our own choice.
    private static readonly (double Weight, double[][] Kernel)[] SpreadsOfModels =
    [
        (0.5, CountLikelihoods.Logits.Kernel(0.15)),
        (0.5, CountLikelihoods.Logits.Kernel(0.5)),
    ];

    private readonly double[] pool;
    private readonly Dictionary<(string Model, string Lot), double[][]> logs = [];

    /// <param name="centre">Mean share that survives a step of this workshop, whichever step it is.</param>
    /// <param name="counts">Counts of this step, each with the weight its age leaves it.</param>
    public StepEvidence(
        double centre,
        CountLikelihoods likelihoods,
        IEnumerable<(double Weight, StepCount Count)> counts
    )
    {
        pool = CountLikelihoods.Logits.Normal(Math.Log(centre / (1 - centre)), SpreadOfSteps);
        foreach (var (weight, count) in counts)
        {
            var group = (count.Model, count.CaneLot ?? "");
            if (!logs.TryGetValue(group, out var own))
            {
                logs[group] = own = ByClumping(_ => new double[CountLikelihoods.Width]);
            }

            var seen = likelihoods.Logs(count.In, count.Out);
            for (var c = 0; c < own.Length; c++)
            {
                Grid.Add(own[c], seen[c], weight);
            }
        }
    }

    /// <summary>Models and lots that walked the step; the lot is empty where none was written down.</summary>
    public IEnumerable<(string Model, string Lot)> Groups => logs.Keys;

    /// <summary>
    /// Logarithms of the probability of the counts of one model and lot, up to a constant, for every shift of the lot from
    /// the most negative.
    /// </summary>
    public double[] LogFits((string Model, string Lot) group, StepPosterior posterior)
    {
        var own = logs[group];
        var top = own.Max(row => row.Max());
        var likelihood = Array.ConvertAll(own, row => Array.ConvertAll(row, log => Math.Exp(log - top)));
        var fits = new double[(2 * CountLikelihoods.MostShift) + 1];
        for (var shift = 0; shift < fits.Length; shift++)
        {
            var fit = posterior.Law.Select((law, c) => Grid.Dot(law, likelihood[c].AsSpan(shift))).Sum();
            fits[shift] = Math.Log(fit + Impossible);
        }

        return fits;
    }

    /// <summary>What is known of a model, given the shift of every lot in points of the grid.</summary>
    public StepPosterior Given(string model, Func<string, int> shift)
    {
        var others = logs
            .Keys.Select(group => group.Model)
            .Where(name => name != model)
            .Distinct(StringComparer.Ordinal);
        var laws = new List<(int Clumping, double LogWeight, double[] Law)>();
        for (var c = 0; c < CountLikelihoods.Clumpings.Length; c++)
        {
            var own = OfModel(model, c, shift);
            var ofOthers = others.Select(other => OfModel(other, c, shift)).ToArray();
            foreach (var (weight, kernel) in SpreadsOfModels)
            {
                var (law, logFit) = Walk(kernel, ofOthers, own);
                laws.Add((c, Math.Log(weight * CountLikelihoods.Clumpings[c].Weight) + logFit, law));
            }
        }

        return Blend(laws);
    }

    /// <summary>From the pool, past the other models, down to the model's own counts.</summary>
    private (double[] Law, double LogFit) Walk(double[][] kernel, Likelihood[] others, Likelihood own)
    {
        var law = (double[])pool.Clone();
        var logFit = 0.0;
        foreach (var other in others)
        {
            logFit += other.Log + Grid.Weigh(law, Grid.Up(kernel, other.Values));
        }

        law = Grid.Down(kernel, law);
        logFit += own.Log + Grid.Weigh(law, own.Values);
        return (law, logFit);
    }

    private static StepPosterior Blend(List<(int Clumping, double LogWeight, double[] Law)> laws)
    {
        var weights = laws.Select(cell => cell.LogWeight).ToArray();
        var log = Grid.Exp(weights);
        log += Math.Log(Grid.Scale(weights));
        var blend = ByClumping(_ => new double[CountLikelihoods.Logits.Count]);
        for (var i = 0; i < weights.Length; i++)
        {
            Grid.Add(blend[laws[i].Clumping], laws[i].Law, weights[i]);
        }

        return new StepPosterior(blend, log);
    }

    private Likelihood OfModel(string model, int clumping, Func<string, int> shift)
    {
        var sum = new double[CountLikelihoods.Logits.Count];
        foreach (var ((name, lot), own) in logs)
        {
            if (name == model)
            {
                Grid.Add(sum, own[clumping].AsSpan(CountLikelihoods.MostShift + shift(lot), sum.Length), 1);
            }
        }

        var log = Grid.Exp(sum);
        return new Likelihood(sum, log);
    }

    private static double[][] ByClumping(Func<int, double[]> row) =>
        [.. Enumerable.Range(0, CountLikelihoods.Clumpings.Length).Select(row)];

    /// <summary>Likelihoods of which the largest is 1, and the logarithm taken out of them.</summary>
    private readonly record struct Likelihood(double[] Values, double Log);
}

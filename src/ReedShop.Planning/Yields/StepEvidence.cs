namespace ReedShop.Planning.Yields;

/// <summary>What the counts say of a step, given the shifts of all lots.</summary>
/// <param name="Parts">Weights by clumping and logit point of one model made from a lot of shift 0.</param>
/// <param name="LogFit">Logarithm of the probability of all counts of the step.</param>
internal sealed record StepPosterior(double[][] Parts, double LogFit);

/// <summary>
/// The counts of one step as likelihoods on a grid. In logits: all models share a mean, a model stands around it, a cane
/// lot shifts it, and the batches of a lot scatter as beta-binomial counts. Sums over the grid replace every integral.
/// </summary>
internal sealed class StepEvidence
{
    /// <summary>The largest shift of a lot, in points of the grid.</summary>
    public const int MostShift = 8;

    /// <summary>Logits between two points of the grid.</summary>
    public const double Spacing = 0.125;

    private const double SpreadOfSteps = 1.0;
    private const double Negligible = 1e-6;

    private static readonly Grid Logits = new(-3.5, Spacing, 81);

    // How much batches differ is itself uncertain; so is how much models differ. Weights of our own choice.
    private static readonly (double Weight, double Clumping)[] Clumpings =
    [
        (0.15, 0),
        (0.25, 0.015),
        (0.3, 0.04),
        (0.2, 0.1),
        (0.1, 0.25),
    ];

    private static readonly (double Weight, double[][] Kernel)[] SpreadsOfModels =
    [
        (0.5, Logits.Kernel(0.15)),
        (0.5, Logits.Kernel(0.5)),
    ];

    private readonly double[] pool;
    private readonly Dictionary<(string Model, string Lot), double[][]> logs = [];

    /// <param name="centre">Mean share that survives a step of this workshop, whichever step it is.</param>
    /// <param name="counts">Counts of this step, each with the weight its age leaves it.</param>
    public StepEvidence(double centre, IEnumerable<(double Weight, StepCount Count)> counts)
    {
        pool = Logits.Normal(Math.Log(centre / (1 - centre)), SpreadOfSteps);
        foreach (var (weight, count) in counts)
        {
            Add(weight, count);
        }
    }

    /// <summary>Models and lots that walked the step; the lot is empty where none was written down.</summary>
    public IEnumerable<(string Model, string Lot)> Groups => logs.Keys;

    /// <summary>The law of survivors for a lot shifted by so many points.</summary>
    public static SurvivalMix Survivors(StepPosterior posterior, int shift) =>
        new(
            Cells(posterior)
                .Select(cell =>
                    (cell.Weight, new BetaBinomial(Share(cell.Point + shift), Clumpings[cell.Clumping].Clumping))
                )
        );

    /// <summary>Logarithm of the probability of the counts of one model and lot, were the lot shifted by so many points.</summary>
    public double LogFit((string Model, string Lot) group, StepPosterior posterior, int shift) =>
        Grid.LogSum(
            Cells(posterior)
                .Select(cell => Math.Log(cell.Weight) + logs[group][cell.Clumping][cell.Point + MostShift + shift])
        );

    /// <summary>What is known of a model, given the shift of every lot in points of the grid.</summary>
    public StepPosterior Given(string model, Func<string, int> shift)
    {
        var models = logs.Keys.Select(group => group.Model).Append(model).Distinct(StringComparer.Ordinal).ToArray();
        var cells = new List<(int Clumping, double LogWeight, double[] Law)>();
        for (var c = 0; c < Clumpings.Length; c++)
        {
            var own = Likelihood(model, c, shift);
            var others = models.Where(name => name != model).Select(name => Likelihood(name, c, shift)).ToArray();
            foreach (var (weight, kernel) in SpreadsOfModels)
            {
                var (law, logFit) = Walk(kernel, others, own);
                cells.Add((c, Math.Log(weight * Clumpings[c].Weight) + logFit, law));
            }
        }

        return Blend(cells);
    }

    /// <summary>From the pool, past the other models, down to the model's own counts.</summary>
    private (double[] Law, double LogFit) Walk(double[][] kernel, Scaled[] others, Scaled own)
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

    private static StepPosterior Blend(List<(int Clumping, double LogWeight, double[] Law)> cells)
    {
        var total = Grid.LogSum(cells.Select(cell => cell.LogWeight));
        var parts = Clumpings.Select(_ => new double[Logits.Count]).ToArray();
        foreach (var (c, logWeight, law) in cells)
        {
            Grid.Add(parts[c], law, Math.Exp(logWeight - total));
        }

        return new StepPosterior(parts, total);
    }

    private Scaled Likelihood(string model, int clumping, Func<string, int> shift)
    {
        var sum = new double[Logits.Count];
        foreach (var ((name, lot), own) in logs)
        {
            if (name == model)
            {
                Grid.Add(sum, own[clumping].AsSpan(MostShift + shift(lot), sum.Length), 1);
            }
        }

        var log = Grid.Exp(sum);
        return new Scaled(sum, log);
    }

    private void Add(double weight, StepCount count)
    {
        var group = (count.Model, count.CaneLot ?? "");
        if (!logs.TryGetValue(group, out var own))
        {
            logs[group] = own = [.. Clumpings.Select(_ => new double[Logits.Count + (2 * MostShift)])];
        }

        for (var c = 0; c < own.Length; c++)
        {
            for (var i = 0; i < own[c].Length; i++)
            {
                var law = new BetaBinomial(Share(i - MostShift), Clumpings[c].Clumping);
                own[c][i] += weight * law.LogPmf(count.Out, count.In);
            }
        }
    }

    private static IEnumerable<(int Clumping, int Point, double Weight)> Cells(StepPosterior posterior) =>
        from c in Enumerable.Range(0, Clumpings.Length)
        from i in Enumerable.Range(0, Logits.Count)
        where posterior.Parts[c][i] > Negligible
        select (c, i, posterior.Parts[c][i]);

    private static double Share(int point) => 1 / (1 + Math.Exp(-Logits[point]));

    /// <summary>Likelihoods whose largest is 1, and the logarithm taken out of them.</summary>
    private readonly record struct Scaled(double[] Values, double Log);
}

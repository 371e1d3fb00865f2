namespace ReedShop.Planning.Yields;

/// <summary>
/// How far each cane lot lies from the others, in points of the logit grid: one shift a lot, shared by all its steps and
/// batches. Good cane is kind to every step.
/// </summary>
internal sealed class LotShifts
{
    private const int Sweeps = 3;

    private static readonly Grid Points = new(
        -StepEvidence.MostShift * StepEvidence.Spacing,
        StepEvidence.Spacing,
        (2 * StepEvidence.MostShift) + 1
    );

    // How much lots differ is uncertain too. Weights of our own choice.
    private static readonly (double Weight, double[] Law)[] Spreads =
    [
        (0.3, Points.Normal(0, 0.1)),
        (0.4, Points.Normal(0, 0.2)),
        (0.3, Points.Normal(0, 0.4)),
    ];

    private readonly IReadOnlyCollection<StepEvidence> steps;
    private readonly Dictionary<string, int> means = [];

    public LotShifts(IReadOnlyCollection<StepEvidence> steps)
    {
        this.steps = steps;
        Prior = Blend([.. Spreads.Select(spread => Math.Log(spread.Weight))]);
        for (var sweep = 0; sweep < Sweeps; sweep++)
        {
            Sweep();
        }
    }

    /// <summary>Law of the shift of a lot that nothing is known of, on all points from the most negative.</summary>
    public double[] Prior { get; private set; }

    /// <summary>The mean shift of a lot, 0 where nothing is known.</summary>
    public int Of(string lot) => means.GetValueOrDefault(lot);

    private void Sweep()
    {
        var fits = new Dictionary<string, double[]>(StringComparer.Ordinal);
        foreach (var step in steps)
        {
            foreach (var ofModel in step.Groups.Where(group => group.Lot.Length > 0).GroupBy(group => group.Model))
            {
                var posterior = step.Given(ofModel.Key, Of);
                foreach (var group in ofModel)
                {
                    var fit = fits.TryGetValue(group.Lot, out var known)
                        ? known
                        : fits[group.Lot] = new double[Points.Count];
                    Grid.Add(
                        fit,
                        [
                            .. Enumerable
                                .Range(0, fit.Length)
                                .Select(j => step.LogFit(group, posterior, j - StepEvidence.MostShift)),
                        ],
                        1
                    );
                }
            }
        }

        Prior = Blend([
            .. Spreads.Select(spread =>
                Math.Log(spread.Weight)
                + fits.Values.Sum(fit => Grid.LogSum(fit.Zip(spread.Law, (log, weight) => log + Math.Log(weight))))
            ),
        ]);
        foreach (var (lot, fit) in fits)
        {
            var law = (double[])Prior.Clone();
            Grid.Exp(fit);
            Grid.Weigh(law, fit);
            means[lot] = (int)Math.Round(law.Select((weight, j) => weight * (j - StepEvidence.MostShift)).Sum());
        }
    }

    private static double[] Blend(double[] logWeights)
    {
        Grid.Exp(logWeights);
        Grid.Scale(logWeights);
        var law = new double[Points.Count];
        for (var i = 0; i < logWeights.Length; i++)
        {
            Grid.Add(law, Spreads[i].Law, logWeights[i]);
        }

        return law;
    }
}

namespace ReedShop.Planning.Yields;

/// <summary>
/// How far each cane lot lies from the others, in points of the logit grid: one shift a lot, shared by all its steps and
/// batches, as good cane is kind to every step.
/// </summary>
internal sealed class LotShifts
{
    private const int Sweeps = 3;

    private static readonly Grid Points = new(
        -CountLikelihoods.MostShift * CountLikelihoods.Spacing,
        CountLikelihoods.Spacing,
        (2 * CountLikelihoods.MostShift) + 1
    );

    // How much lots differ is itself uncertain. Weights of our own choice.
    private static readonly (double Weight, double[] Law)[] Spreads =
    [
        (0.3, Points.Normal(0, 0.1)),
        (0.4, Points.Normal(0, 0.2)),
        (0.3, Points.Normal(0, 0.4)),
    ];

    private readonly IReadOnlyCollection<StepEvidence> steps;
    private readonly Dictionary<string, int> means = new(StringComparer.Ordinal);

    public LotShifts(IReadOnlyCollection<StepEvidence> steps)
    {
        this.steps = steps;
        OfNewLot = Blend([]);
        for (var sweep = 0; sweep < Sweeps; sweep++)
        {
            Sweep();
        }
    }

    /// <summary>Law of the shift of a lot that nothing is known of, for every shift from the most negative.</summary>
    public double[] OfNewLot { get; private set; }

    /// <summary>The mean shift of a lot, 0 where nothing is known.</summary>
    public int Of(string lot) => means.GetValueOrDefault(lot);

    /// <summary>Steps and lots explain each other: what one is believed to be corrects the other.</summary>
    private void Sweep()
    {
        var fits = Fits();
        OfNewLot = Blend(fits.Values);
        foreach (var (lot, fit) in fits)
        {
            var law = (double[])OfNewLot.Clone();
            Grid.Exp(fit);
            Grid.Weigh(law, fit);
            means[lot] = (int)Math.Round(law.Select((weight, j) => weight * (j - CountLikelihoods.MostShift)).Sum());
        }
    }

    private Dictionary<string, double[]> Fits()
    {
        var fits = new Dictionary<string, double[]>(StringComparer.Ordinal);
        foreach (var step in steps)
        {
            foreach (var ofModel in step.Groups.Where(group => group.Lot.Length > 0).GroupBy(group => group.Model))
            {
                var posterior = step.Given(ofModel.Key, Of);
                foreach (var group in ofModel)
                {
                    fits.TryAdd(group.Lot, new double[Points.Count]);
                    Grid.Add(fits[group.Lot], step.LogFits(group, posterior), 1);
                }
            }
        }

        return fits;
    }

    private static double[] Blend(IReadOnlyCollection<double[]> fits) =>
        Grid.Blend(
            [.. Spreads.Select(spread => spread.Law)],
            Spreads.Select(spread => Math.Log(spread.Weight) + fits.Sum(fit => LogFit(spread.Law, fit)))
        );

    private static double LogFit(double[] law, double[] fit)
    {
        var likelihood = (double[])fit.Clone();
        return Grid.Exp(likelihood) + Math.Log(Grid.Dot(law, likelihood));
    }
}

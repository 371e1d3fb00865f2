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
    private const double Slight = 1e-4;
    private const double Noticeable = 1e-3;

    // How much batches of one lot differ is uncertain, and how much lots differ beside it. Weights of our own choice.
    private static readonly Spread[] Spreads =
    [
        .. GradeShares
            .Around(0.7, 0.6, first: 0.3, count: 9)
            .Select(batch => new Spread(
                batch.Weight,
                batch.Quarters,
                GradeShares.Offsets.Kernel(batch.Quarters),
                GradeShares.Offsets.Kernel(0.2 * batch.Quarters),
                GradeShares.Offsets.Kernel(0.6 * batch.Quarters)
            )),
    ];

    private readonly GradeShares shares;
    private readonly ILookup<string, Seen> models;
    private readonly Dictionary<string, double[]> logFits;

    public GradeEvidence(IReadOnlyList<BatchGrades> history, BatchWeights weights, int quartersBetweenGrades)
    {
        shares = new GradeShares(quartersBetweenGrades);
        models = history.ToLookup(
            batch => batch.Model,
            batch => new Seen(batch, weights.Of(batch.Model, batch.Day), Array.ConvertAll(shares.Logs(batch), Scaled)),
            StringComparer.Ordinal
        );
        logFits = models.ToDictionary(
            model => model.Key,
            model => Array.ConvertAll(Cells(model, ""), cell => cell.LogFit),
            StringComparer.Ordinal
        );
    }

    public static GradeEvidence None { get; } = new([], new([], default, YieldSettings.Default), 1);

    /// <summary>Where reeds of a model, made from a lot, land in the next batches, whatever they are worked toward.</summary>
    public GradeOutlook Outlook(string model, string lot)
    {
        var weighed = new Lazy<(Cell[] Cells, double[] Weights)>(() =>
        {
            var cells = Cells(models[model], lot);
            return (cells, Weights(model, cells));
        });
        var laws = new Lazy<double[][]>(() => Laws(weighed.Value.Cells, weighed.Value.Weights, cell => cell.Next));
        var places = new Lazy<Places>(() => PlacesOf(weighed.Value.Cells, weighed.Value.Weights));
        return new GradeOutlook(Mix, () => places.Value.Weights, At);

        GradeMix Mix(Strength aim) =>
            new(Nodes(laws.Value, shares.Of(aim), Negligible))
            {
                Batches = models[model].Count(),
                Reeds = models[model].Sum(seen => seen.Batch.Counts.Values.Sum()),
            };

        GradeMix At(Strength aim, int place) => new(Nodes(places.Value.Laws[place], shares.Of(aim), Slight));
    }

    /// <summary>The places at which the lot may lie, and given each of them the law of a batch by reed spread and offset.</summary>
    private static Places PlacesOf(Cell[] cells, double[] weights)
    {
        var all = new double[GradeShares.Offsets.Count];
        for (var i = 0; i < cells.Length; i++)
        {
            Grid.Add(all, cells[i].Place, weights[i]);
        }

        int[] kept = [.. Enumerable.Range(0, all.Length).Where(place => all[place] > Noticeable)];
        var likely = Array.ConvertAll(kept, place => all[place]);
        Grid.Scale(likely);
        return new Places(
            likely,
            Array.ConvertAll(
                kept,
                place =>
                {
                    var given = cells.Select((cell, i) => weights[i] * cell.Place[place] / all[place]).ToArray();
                    return Laws(cells, given, cell => cell.BatchKernel[place]);
                }
            )
        );
    }

    /// <summary>
    /// How probable it is that so many batches of one lot, with so many reeds in all, come out on the mean at most so many
    /// quarter steps harder than their aims. The mean of many reeds is as good as normal.
    /// </summary>
    public Func<double, double> MeanOffset(string model, string lot, int batches, int reeds)
    {
        var cells = Cells(models[model], lot);
        var weights = Weights(model, cells);
        return quarters => cells.Select((cell, i) => weights[i] * AtMost(cell, quarters)).Sum();

        double AtMost(Cell cell, double quarters)
        {
            var sorting = Math.Pow(shares.QuartersBetweenGrades, 2) / 12;
            var ofReed = Math.Pow(GradeShares.ReedSpreads[cell.Reed].Quarters, 2) + sorting;
            var spread = Math.Sqrt((Math.Pow(cell.BatchSpread, 2) / batches) + (ofReed / reeds));
            return cell
                .Place.Select((weight, u) => weight * NormalLaw.Cdf((quarters - GradeShares.Offsets[u]) / spread))
                .Sum();
        }
    }

    private double[] Weights(string model, Cell[] cells)
    {
        var weights = Array.ConvertAll(cells, cell => cell.LogFit);
        foreach (var (_, logFit) in logFits.Where(other => other.Key != model))
        {
            Grid.Add(weights, logFit, WeightOfOtherModels);
        }

        Grid.Exp(weights);
        Grid.Scale(weights);
        return weights;
    }

    /// <summary>Weights of a batch by reed spread and offset.</summary>
    private static double[][] Laws(Cell[] cells, double[] weights, Func<Cell, double[]> batch)
    {
        var laws = Array.ConvertAll(GradeShares.ReedSpreads, _ => new double[GradeShares.Offsets.Count]);
        for (var i = 0; i < cells.Length; i++)
        {
            Grid.Add(laws[cells[i].Reed], batch(cells[i]), weights[i]);
        }

        return laws;
    }

    private static GradeNode[] Nodes(double[][] laws, double[][][] shares, double negligible)
    {
        var kept = laws.Sum(law => law.Where(weight => weight > negligible).Sum());
        return
        [
            .. from reed in Enumerable.Range(0, laws.Length)
            from u in Enumerable.Range(0, laws[reed].Length)
            where laws[reed][u] > negligible
            select new GradeNode(laws[reed][u] / kept, shares[reed][u]),
        ];
    }

    /// <summary>The next batch of a lot for every spread of reeds, of batches and of lots.</summary>
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
            let others = lots[false].Select(batches => OfLot(batches, reed, spread.Batch)).ToArray()
            let own = lots[true].Select(batches => OfLot(batches, reed, spread.Batch)).ToArray()
            let prior = Math.Log(GradeShares.ReedSpreads[reed].Weight * spread.Weight)
            from lotKernel in new[] { spread.LotsAlike, spread.LotsApart }
            let next = Next(others, own, lotKernel)
            select new Cell(
                reed,
                spread.Quarters,
                spread.Batch,
                prior + next.LogFit,
                next.Law,
                Grid.Down(spread.Batch, next.Law)
            ),
        ];
    }

    /// <summary>From the bias of the model, past its other lots, down to the lot.</summary>
    private static (double[] Law, double LogFit) Next(Likelihood[] others, Likelihood[] own, double[][] lotKernel)
    {
        var law = GradeShares.Offsets.Normal(0, SpreadOfBias);
        var logFit = 0.0;
        foreach (var (values, log) in others)
        {
            logFit += log + Grid.Weigh(law, Grid.Up(lotKernel, values));
        }

        law = Grid.Down(lotKernel, law);
        foreach (var (values, log) in own)
        {
            logFit += log + Grid.Weigh(law, values);
        }

        return (law, logFit);
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

    private sealed record Spread(
        double Weight,
        double Quarters,
        double[][] Batch,
        double[][] LotsAlike,
        double[][] LotsApart
    );

    private sealed record Seen(BatchGrades Batch, double Weight, Likelihood[] ByReedSpread);

    /// <summary>One choice of all spreads: how well it fits, and where the lot and its next batch lie if it holds.</summary>
    private sealed record Cell(
        int Reed,
        double BatchSpread,
        double[][] BatchKernel,
        double LogFit,
        double[] Place,
        double[] Next
    );

    private sealed record Places(double[] Weights, double[][][] Laws);

    /// <summary>Likelihoods of which the largest is 1, and the logarithm taken out of them.</summary>
    private readonly record struct Likelihood(double[] Values, double Log);
}

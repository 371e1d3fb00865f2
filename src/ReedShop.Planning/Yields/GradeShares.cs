using System.Collections.Concurrent;

namespace ReedShop.Planning.Yields;

/// <summary>
/// The grid on which the grades of a batch are thought about, in quarter steps: how far the batch lies from its aim, and
/// how widely its reeds scatter. At each point the share of every strength follows from the normal law (a probit), by
/// limits midway between two grades of the shop.
/// </summary>
internal sealed class GradeShares(int quartersBetweenGrades)
{
    // One reed in a thousand is graded or written down by mistake; no single reed may rule the estimate.
    private const double Slip = 0.001;

    /// <summary>Distance of a batch from its aim.</summary>
    public static readonly Grid Offsets = new(-6, 0.25, 49);

    /// <summary>How widely reeds of one batch scatter is itself uncertain: about one quarter step. Weights of our own choice.</summary>
    public static readonly (double Weight, double Quarters)[] ReedSpreads = Around(1.05, 0.5, first: 0.5, count: 8);

    private readonly ConcurrentDictionary<Strength, double[][][]> known = new();

    public int QuartersBetweenGrades => quartersBetweenGrades;

    /// <summary>A spread that is known to within a factor: log-normal weights on spreads each a quarter larger than the last.</summary>
    public static (double Weight, double Quarters)[] Around(double centre, double logSpread, double first, int count) =>
        [
            .. Enumerable
                .Range(0, count)
                .Select(i => first * Math.Pow(1.25, i))
                .Select(quarters => (Math.Exp(-0.5 * Math.Pow(Math.Log(quarters / centre) / logSpread, 2)), quarters)),
        ];

    /// <summary>Shares from the softest strength: [reed spread][offset][strength].</summary>
    public double[][][] Of(Strength aim) => known.GetOrAdd(aim, Table);

    /// <summary>Logarithms of the likelihood of a batch: [reed spread][offset].</summary>
    public double[][] Logs(BatchGrades batch) =>
        Array.ConvertAll(Of(batch.Aim), byOffset => Array.ConvertAll(byOffset, shares => Log(shares, batch)));

    private static double Log(double[] shares, BatchGrades batch)
    {
        var log = 0.0;
        foreach (var (strength, count) in batch.Counts)
        {
            log += count * Math.Log(shares[strength.Quarters - Strength.LeastQuarters]);
        }

        return log;
    }

    private double[][][] Table(Strength aim) =>
        Array.ConvertAll(
            ReedSpreads,
            reed =>
                Enumerable
                    .Range(0, Offsets.Count)
                    .Select(u => Shares(aim.Quarters + Offsets[u], reed.Quarters))
                    .ToArray()
        );

    private double[] Shares(double centre, double spread)
    {
        var shares = new double[GradeNode.Strengths];
        Array.Fill(shares, Slip / GradeNode.Strengths);
        var below = 0.0;
        for (var quarters = Strength.LeastQuarters; below < 1; quarters += quartersBetweenGrades)
        {
            var hardest = quarters + quartersBetweenGrades > Strength.MostQuarters;
            var limit = quarters + (quartersBetweenGrades / 2.0);
            var upTo = hardest ? 1 : NormalLaw.Cdf((limit - centre) / spread);
            shares[quarters - Strength.LeastQuarters] += (1 - Slip) * (upTo - below);
            below = upTo;
        }

        return shares;
    }
}

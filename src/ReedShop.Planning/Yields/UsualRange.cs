namespace ReedShop.Planning.Yields;

/// <summary>What one batch kept at a step, and between which shares it would usually lie.</summary>
public sealed record RangePoint(StepCount Count, double Low, double High)
{
    public double Share => Count.Out / (double)Count.In;

    public bool IsOutside => Share < Low || Share > High;
}

/// <summary>
/// The shares that batches keep at a step, one after another, with the limits between which they usually lie: a chart of
/// proportions (NIST/SEMATECH e-Handbook 6.3.3.2). Blanks of a batch share their luck, which makes batches differ more than
/// single blanks would; so the limits are widened by how much one batch differs from the next, as on a chart of
/// individuals (6.3.2.2), and never narrowed.
/// </summary>
/// <param name="Mean">Share of all blanks that were kept.</param>
public sealed record UsualRange(string Model, string Step, double Mean, IReadOnlyList<RangePoint> Points)
{
    /// <summary>With fewer batches limits say more of us than of the bench.</summary>
    public const int LeastBatches = 8;

    private const double Sigmas = 3;

    /// <summary>Mean distance of two values drawn from one normal law, in its deviations: d2 of pairs.</summary>
    private const double D2OfPairs = 1.128;

    /// <summary>Of each step of each model since its last marker, where there are batches enough.</summary>
    public static IReadOnlyList<UsualRange> Of(YieldHistory history) =>
        [
            .. history
                .Steps.Where(count => count.IsTelling && !(count.Day < history.LastMarker(count.Model)))
                .GroupBy(count => (count.Model, Step: count.Step.ToUpperInvariant()))
                .Where(step => step.Count() >= LeastBatches)
                .Select(step => Of([.. step.OrderBy(count => count.Day).ThenBy(count => count.Batch)])),
        ];

    /// <summary>Three deviations either side of a share among so many, within 0 and 1.</summary>
    /// <param name="spread">Deviations of a batch, in those of blanks that have nothing in common.</param>
    public static (double Low, double High) Limits(double mean, int blanks, double spread = 1)
    {
        var reach = Sigmas * spread * Deviation(mean, blanks);
        return (Math.Max(0, mean - reach), Math.Min(1, mean + reach));
    }

    /// <summary>The deviation of single values from the distances between each and the next.</summary>
    public static double DeviationOf(IReadOnlyList<double> values) =>
        values.Zip(values.Skip(1), (one, next) => Math.Abs(next - one)).Average() / D2OfPairs;

    private static UsualRange Of(StepCount[] counts)
    {
        var mean = counts.Sum(count => count.Out) / (double)counts.Sum(count => count.In);
        var spread = mean is 0 or 1 ? 1 : Math.Max(1, DeviationOf([.. counts.Select(count => Standing(count, mean))]));
        return new UsualRange(
            counts[0].Model,
            counts[0].Step,
            mean,
            [
                .. counts.Select(count =>
                {
                    var (low, high) = Limits(mean, count.In, spread);
                    return new RangePoint(count, low, high);
                }),
            ]
        );
    }

    /// <summary>How many deviations the share of a batch lies above the mean.</summary>
    private static double Standing(StepCount count, double mean) =>
        ((count.Out / (double)count.In) - mean) / Deviation(mean, count.In);

    private static double Deviation(double mean, int blanks) => Math.Sqrt(mean * (1 - mean) / blanks);
}

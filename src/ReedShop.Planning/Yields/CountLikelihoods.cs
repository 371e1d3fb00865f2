namespace ReedShop.Planning.Yields;

/// <summary>
/// The grid on which the yield of a step is thought about, in logits of the mean share and in clumping, and how likely
/// each of its points makes a count. The same counts return often: each is worked out once.
/// </summary>
internal sealed class CountLikelihoods
{
    /// <summary>The largest shift of a cane lot, in points of the grid.</summary>
    public const int MostShift = 8;

    /// <summary>Logits between two points.</summary>
    public const double Spacing = 0.125;

    /// <summary>Means of unshifted steps, as logits: from about 3 in 100 to 998 in 1000.</summary>
    public static readonly Grid Logits = new(-3.5, Spacing, 81);

    /// <summary>How much batches differ is itself uncertain. Weights of our own choice.</summary>
    public static readonly (double Weight, double Clumping)[] Clumpings =
    [
        (0.12, 0),
        (0.15, 0.012),
        (0.2, 0.025),
        (0.22, 0.05),
        (0.19, 0.1),
        (0.12, 0.2),
    ];

    private readonly Dictionary<(int In, int Out), double[][]> known = [];

    /// <summary>Points of the grid and of all shifts beyond its ends.</summary>
    public static int Width => Logits.Count + (2 * MostShift);

    public static BetaBinomial Law(int clumping, int point) =>
        new(1 / (1 + Math.Exp(-Logits[point])), Clumpings[clumping].Clumping);

    /// <summary>Logarithms by clumping and point, the first of which lies <see cref="MostShift"/> before the grid.</summary>
    public double[][] Logs(int blanksIn, int blanksOut)
    {
        if (!known.TryGetValue((blanksIn, blanksOut), out var logs))
        {
            known[(blanksIn, blanksOut)] = logs = [
                .. Clumpings.Select((_, c) => Row(point => Law(c, point).LogPmf(blanksOut, blanksIn))),
            ];
        }

        return logs;
    }

    private static double[] Row(Func<int, double> log) => [.. Enumerable.Range(-MostShift, Width).Select(log)];
}

using System.Collections.Concurrent;

namespace ReedShop.Planning.Yields;

/// <summary>
/// What is known of the survivors of one step, or of several, other things being equal: a mixture of beta-binomial laws, a
/// chain or a blend of such. Blanks are exchangeable in all of them. Built once for many questions; safe to ask from
/// several threads.
/// </summary>
public sealed class SurvivalMix
{
    private const int FirstRung = 64;

    private readonly Func<int, double[]> row;
    private readonly ConcurrentDictionary<int, double[]> rungs = new();
    private double[][] table = [];

    /// <param name="parts">Laws with weights that are not negative; they are scaled to sum to 1.</param>
    public SurvivalMix(IEnumerable<(double Weight, BetaBinomial Law)> parts)
    {
        var given = parts.ToArray();
        var total = given.Sum(part => part.Weight);
        var scaled = Array.ConvertAll(given, part => (Weight: part.Weight / total, part.Law));
        Mean = scaled.Sum(part => part.Weight * part.Law.Mean);
        row = n =>
        {
            var sum = new double[n + 1];
            BetaBinomialRows.Add(sum, scaled);
            return sum;
        };
    }

    private SurvivalMix(double mean, Func<int, double[]> row)
    {
        Mean = mean;
        this.row = row;
    }

    /// <summary>Mean share that survives.</summary>
    public double Mean { get; }

    /// <summary>Survivors of one step after another, each independent of the other.</summary>
    internal static SurvivalMix Chain(SurvivalMix first, SurvivalMix next) =>
        new(first.Mean * next.Mean, n => Thinning.Mix(next.Rung(n), first.Rung(n)));

    /// <summary>One of several, by chance.</summary>
    internal static SurvivalMix Blend(IReadOnlyList<double> weights, IReadOnlyList<SurvivalMix> mixes) =>
        mixes.Count == 1
            ? mixes[0]
            : new(weights.Zip(mixes, (weight, mix) => weight * mix.Mean).Sum(), n => Blended(weights, mixes, n));

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/>.</summary>
    public ReadOnlySpan<double> Survivors(int n) => Table(n)[n];

    /// <summary>Rows for every number of blanks from 0 to at least <paramref name="most"/>.</summary>
    internal double[][] Table(int most)
    {
        var known = table;
        while (known.Length <= most)
        {
            // Rungs are fixed, so that a row does not depend on which was asked for first. Two threads may both build one.
            var rung = known.Length == 0 ? FirstRung : 2 * (known.Length - 1);
            known = [.. known, .. Thinning.Rows(Rung(rung), known.Length)];
            table = known;
        }

        return known;
    }

    private double[] Rung(int n) => rungs.GetOrAdd(n, row);

    private static double[] Blended(IReadOnlyList<double> weights, IReadOnlyList<SurvivalMix> mixes, int n)
    {
        var sum = new double[n + 1];
        for (var i = 0; i < mixes.Count; i++)
        {
            Grid.Add(sum, mixes[i].Rung(n), weights[i]);
        }

        return sum;
    }
}

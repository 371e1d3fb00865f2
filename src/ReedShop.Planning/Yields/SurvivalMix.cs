namespace ReedShop.Planning.Yields;

/// <summary>
/// A mixture of beta-binomial laws: what is known of the survivors of one step, other things being equal. Built once for
/// many questions; safe to ask from several threads.
/// </summary>
public sealed class SurvivalMix
{
    private const int FirstRung = 64;

    private readonly (double Weight, BetaBinomial Law)[] parts;
    private double[][] table = [];

    /// <param name="parts">Laws with weights that are not negative; they are scaled to sum to 1.</param>
    public SurvivalMix(IEnumerable<(double Weight, BetaBinomial Law)> parts)
    {
        var given = parts.ToArray();
        var total = given.Sum(part => part.Weight);
        this.parts = Array.ConvertAll(given, part => (part.Weight / total, part.Law));
    }

    /// <summary>Mean share that survives.</summary>
    public double Mean => parts.Sum(part => part.Weight * part.Law.Mean);

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
            known = [.. known, .. Thinning.Rows(Row(rung), known.Length)];
            table = known;
        }

        return known;
    }

    private double[] Row(int n)
    {
        var row = new double[n + 1];
        foreach (var (weight, law) in parts)
        {
            law.AddRow(row, weight);
        }

        return row;
    }
}

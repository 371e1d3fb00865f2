namespace ReedShop.Planning.Yields;

/// <summary>A mixture of beta-binomial laws: what is known of the survivors of one step, other things being equal.</summary>
public sealed class SurvivalMix
{
    private readonly (double Weight, BetaBinomial Law)[] parts;
    private double[][] table = [];

    /// <param name="parts">Laws with weights that are not negative; they are scaled to sum to 1.</param>
    public SurvivalMix(IEnumerable<(double Weight, BetaBinomial Law)> parts)
    {
        var list = parts.ToArray();
        var total = list.Sum(part => part.Weight);
        this.parts = [.. list.Select(part => (part.Weight / total, part.Law))];
    }

    public double Mean => parts.Sum(part => part.Weight * part.Law.Mean);

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/>.</summary>
    public double[] Row(int n)
    {
        var row = new double[n + 1];
        foreach (var (weight, law) in parts)
        {
            law.AddRow(row, weight);
        }

        return row;
    }

    /// <summary>Rows for 0..most blanks, kept for the next question; do not write to them.</summary>
    internal double[][] Table(int most)
    {
        var known = table;
        if (known.Length <= most)
        {
            // Two threads may both build the longer table; either is right.
            known = [.. known, .. Enumerable.Range(known.Length, most + 1 - known.Length).Select(Row)];
            table = known;
        }

        return known;
    }
}

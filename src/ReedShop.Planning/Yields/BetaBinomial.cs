namespace ReedShop.Planning.Yields;

/// <summary>
/// Survivors of a batch whose own chance is drawn from a beta law: the beta-binomial, also known as the Pólya-Eggenberger
/// law (Johnson, Kemp and Kotz, Univariate Discrete Distributions, ch. 6). Written by its mean and its clumping, so
/// that every ratio of two neighbouring probabilities is a plain fraction, no gamma function is needed and the
/// binomial is the ordinary case of clumping 0.
/// </summary>
/// <param name="Mean">Mean chance of one blank, 0 to 1; alpha / (alpha + beta).</param>
/// <param name="Clumping">How much blanks of one batch share their fate, 0 or more; 1 / (alpha + beta).</param>
public readonly record struct BetaBinomial(double Mean, double Clumping)
{
    // A running product is turned into its logarithm before it can underflow.
    private const double Tiny = 1e-250;

    public static BetaBinomial OfBeta(double alpha, double beta) => new(alpha / (alpha + beta), 1 / (alpha + beta));

    /// <summary>Logarithm of the probability of <paramref name="k"/> survivors of <paramref name="n"/>.</summary>
    public double LogPmf(int k, int n)
    {
        var log = 0.0;
        var product = 1.0;
        for (var i = 0; i < n; i++)
        {
            // Blank by blank: the first k survive, the others do not; the orders in which that can happen come along.
            var survives = i < k;
            var chance = survives ? Mean + (i * Clumping) : 1 - Mean + ((i - k) * Clumping);
            var orders = survives ? (n - i) / (double)(k - i) : 1;
            product *= orders * chance / (1 + (i * Clumping));
            if (product < Tiny)
            {
                log += Math.Log(product);
                product = 1;
            }
        }

        return log + Math.Log(product);
    }

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/>.</summary>
    public double[] Row(int n)
    {
        var row = new double[n + 1];
        BetaBinomialRows.Add(row, [(1, this)]);
        return row;
    }

    /// <summary>Probability of at most <paramref name="k"/> survivors of <paramref name="n"/>.</summary>
    public double Cdf(int k, int n) => k < 0 ? 0 : Math.Min(1, Row(n).Take(k + 1).Sum());
}

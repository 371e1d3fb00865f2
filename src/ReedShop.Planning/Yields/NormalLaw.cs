namespace ReedShop.Planning.Yields;

internal static class NormalLaw
{
    // Beyond this the tail is below 1e-14.
    private const double Far = 7.5;

    /// <summary>Chance that a standard normal quantity is below x; series of Marsaglia, J. Stat. Software 11(4), 2004.</summary>
    public static double Cdf(double x)
    {
        if (Math.Abs(x) > Far)
        {
            return x < 0 ? 0 : 1;
        }

        var sum = x;
        var term = x;
        for (var i = 3; Math.Abs(term) > 1e-17; i += 2)
        {
            term *= x * x / i;
            sum += term;
        }

        return 0.5 + (sum * Math.Exp(-0.5 * x * x) / Math.Sqrt(2 * Math.PI));
    }
}

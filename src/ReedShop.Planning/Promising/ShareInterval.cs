namespace ReedShop.Planning.Promising;

/// <summary>A share of so many, with the range it may well have had by chance (Wilson, JASA 1927).</summary>
public sealed record ShareInterval(int Happened, int Of)
{
    /// <summary>Of the normal law: 5 in 100 lie above it.</summary>
    private const double NinetyInHundred = 1.6448536269514722;

    /// <summary>Null where nothing could happen yet.</summary>
    public double? Share => Of == 0 ? null : (double)Happened / Of;

    /// <summary>Lower end of the 90 % interval; everything is possible where nothing was seen.</summary>
    public double Low => Of == 0 ? 0 : Ends(NinetyInHundred).Low;

    public double High => Of == 0 ? 1 : Ends(NinetyInHundred).High;

    /// <param name="z">Of the normal law, the quantile that half of what is left out lies above.</param>
    public (double Low, double High) Ends(double z)
    {
        var (n, share) = ((double)Of, (double)Happened / Of);
        var centre = share + (z * z / (2 * n));
        var half = z * Math.Sqrt((share * (1 - share) / n) + (z * z / (4 * n * n)));
        var scale = 1 + (z * z / n);
        return (Math.Max(0, (centre - half) / scale), Math.Min(1, (centre + half) / scale));
    }
}

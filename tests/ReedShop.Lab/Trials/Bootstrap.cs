namespace ReedShop.Lab.Trials;

/// <summary>
/// Promises of one shop share its truth, so whole shops are drawn anew, with all their promises (a cluster bootstrap).
/// </summary>
internal static class Bootstrap
{
    private const int Repeats = 2000;
    private const double TailEachSide = 0.05;

    /// <summary>The 90 % interval of kept less recorded.</summary>
    public static (double Low, double High) OfDifference(IReadOnlyList<TrialPromise[]> shops, ulong seed)
    {
        var sums = shops
            .Select(promises => (Difference: promises.Sum(p => (p.Kept ? 1 : 0) - p.Chance), promises.Length))
            .Where(shop => shop.Length > 0)
            .ToArray();
        if (sums.Length == 0)
        {
            return (double.NaN, double.NaN);
        }

        var differences = new double[Repeats];
        for (var repeat = 0; repeat < Repeats; repeat++)
        {
            var dice = Draws.At(seed, What.Bootstrap, (ulong)repeat);
            var (difference, promises) = (0.0, 0);
            for (var drawn = 0; drawn < sums.Length; drawn++)
            {
                var shop = sums[dice.Below(sums.Length)];
                (difference, promises) = (difference + shop.Difference, promises + shop.Length);
            }

            differences[repeat] = difference / promises;
        }

        Array.Sort(differences);
        return (differences[(int)(Repeats * TailEachSide)], differences[(int)(Repeats * (1 - TailEachSide))]);
    }
}

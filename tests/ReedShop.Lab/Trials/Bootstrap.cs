namespace ReedShop.Lab.Trials;

/// <summary>
/// Promises of one shop share its truth, so whole shops are drawn anew, with all their promises (a cluster bootstrap).
/// </summary>
internal static class Bootstrap
{
    private const int Repeats = 2000;
    private const double TailEachSide = 0.05;

    /// <summary>The 90 % interval of kept less recorded.</summary>
    public static (double Low, double High) OfDifference(IReadOnlyList<TrialPromise[]> shops, ulong seed) =>
        OfDifference([.. shops.Select(Kept)], [.. shops.Select(Recorded)], seed);

    /// <summary>The 90 % interval of kept less kept in the same shops without what set in.</summary>
    public static (double Low, double High) OfChange(
        IReadOnlyList<TrialPromise[]> shops,
        IReadOnlyList<TrialPromise[]> without,
        ulong seed
    ) => OfDifference([.. shops.Select(Kept)], [.. without.Select(Kept)], seed);

    private static Tally Kept(TrialPromise[] shop) => new(shop.Count(promise => promise.Kept), shop.Length);

    private static Tally Recorded(TrialPromise[] shop) => new(shop.Sum(promise => promise.Chance), shop.Length);

    private static (double Low, double High) OfDifference(Tally[] ones, Tally[] others, ulong seed)
    {
        var shops = ones.Zip(others).Where(shop => shop.First.Count + shop.Second.Count > 0).ToArray();
        if (shops.Length == 0)
        {
            return (double.NaN, double.NaN);
        }

        var differences = new double[Repeats];
        for (var repeat = 0; repeat < Repeats; repeat++)
        {
            var dice = Draws.At(seed, What.Bootstrap, (ulong)repeat);
            var (one, other) = (new Tally(0, 0), new Tally(0, 0));
            for (var drawn = 0; drawn < shops.Length; drawn++)
            {
                var shop = shops[dice.Below(shops.Length)];
                (one, other) = (one.And(shop.First), other.And(shop.Second));
            }

            differences[repeat] = one.Mean - other.Mean;
        }

        Array.Sort(differences);
        return (differences[(int)(Repeats * TailEachSide)], differences[(int)(Repeats * (1 - TailEachSide))]);
    }

    private readonly record struct Tally(double Sum, int Count)
    {
        public double Mean => Sum / Count;

        public Tally And(Tally other) => new(Sum + other.Sum, Count + other.Count);
    }
}

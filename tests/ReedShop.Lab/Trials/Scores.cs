namespace ReedShop.Lab.Trials;

/// <summary>How good stated chances and stated days were.</summary>
internal static class Scores
{
    /// <summary>Mean squared distance of chance and outcome (Brier 1950); less is better.</summary>
    public static double Brier(IEnumerable<(double Chance, bool Kept)> promises) =>
        promises.Average(promise => Math.Pow((promise.Kept ? 1 : 0) - promise.Chance, 2));

    /// <summary>
    /// Loss of a stated quantile (Koenker and Bassett 1978): each unit above it costs the level, each below it the rest.
    /// </summary>
    public static double Pinball(double stated, double actual, double level) =>
        actual >= stated ? level * (actual - stated) : (1 - level) * (stated - actual);

    /// <summary>
    /// The randomised probability integral transform of an outcome that had a chance (Smith 1985; Czado, Gneiting and
    /// Held 2009): even between 0 and 1 where chances are true.
    /// </summary>
    /// <param name="share">A random number from 0 to 1.</param>
    public static double Pit(double chance, bool kept, double share) =>
        kept ? 1 - chance + (share * chance) : share * (1 - chance);

    /// <summary>Shares that fall into ten bins of equal width.</summary>
    public static double[] Bins(IReadOnlyCollection<double> values)
    {
        var bins = new double[10];
        foreach (var value in values)
        {
            bins[Math.Clamp((int)(value * bins.Length), 0, bins.Length - 1)] += 1.0 / values.Count;
        }

        return bins;
    }
}

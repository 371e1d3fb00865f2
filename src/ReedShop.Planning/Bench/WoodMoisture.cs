namespace ReedShop.Planning.Bench;

/// <summary>
/// The moisture that wood comes to rest at in air kept as it is. Cane is a grass and no wood: its own figures were not
/// found published, so wood stands in for it, and whoever shows the figure says so.
/// </summary>
public static class WoodMoisture
{
    /// <summary>
    /// Equilibrium moisture content in percent of dry mass: the sorption equation of Hailwood and Horrobin with two
    /// hydrates, as in the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-282, chapter 4, equation 4-5), with
    /// its coefficients for °C.
    /// </summary>
    /// <param name="celsius">Temperature; the handbook's table 4-2 begins at -1.1 °C.</param>
    /// <param name="relativeHumidity">As a share from 0 to 1; the table goes from .05 to .95.</param>
    /// <exception cref="ArgumentOutOfRangeException">The humidity is no share.</exception>
    public static double EquilibriumPercent(double celsius, double relativeHumidity)
    {
        if (relativeHumidity is not (>= 0 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(relativeHumidity), relativeHumidity, "A share from 0 to 1.");
        }

        var square = celsius * celsius;
        var moleMass = 349 + (1.29 * celsius) + (0.0135 * square);
        var dissolving = 0.805 + (0.000736 * celsius) - (0.00000273 * square);
        var firstHydrate = 6.27 - (0.00938 * celsius) - (0.000303 * square);
        var secondHydrate = 1.91 + (0.0407 * celsius) - (0.000293 * square);

        var activity = dissolving * relativeHumidity;
        var once = firstHydrate * activity;
        var twice = firstHydrate * secondHydrate * activity * activity;
        return 1800 / moleMass * ((activity / (1 - activity)) + ((once + (2 * twice)) / (1 + once + twice)));
    }
}

namespace ReedShop.Planning.Bench;

/// <summary>What the air of a drying room makes of a night on the rack.</summary>
public enum DryingAir
{
    /// <summary>One night should be enough.</summary>
    Dry,

    /// <summary>One night may not be enough.</summary>
    Slow,

    /// <summary>One night is not to be counted on.</summary>
    Damp,
}

/// <summary>Sorts air by the moisture that wood comes to rest at in it: a hint, which no plan and no promise reads.</summary>
public static class DryingAirs
{
    /// <summary>Common practice, no source: about 60 % humidity in a room of 20 °C.</summary>
    public const double DriestSlowPercent = 11;

    /// <summary>Common practice, no source: about 73 % humidity in a room of 20 °C.</summary>
    public const double DriestDampPercent = 14;

    /// <summary>Common practice, no source: colder air takes up little water in a night, however dry it is.</summary>
    public const double LeastDryCelsius = 15;

    /// <param name="moisturePercent">What wood comes to rest at in this air, by <see cref="WoodMoisture"/>.</param>
    public static DryingAir Of(double celsius, double moisturePercent) =>
        moisturePercent >= DriestDampPercent ? DryingAir.Damp
        : moisturePercent >= DriestSlowPercent || celsius < LeastDryCelsius ? DryingAir.Slow
        : DryingAir.Dry;
}

using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>Something the maker can do for a promise, and what the draws say would come of it.</summary>
/// <param name="Chance">Of keeping the promise then.</param>
/// <param name="Lowers">Other promises that would stand worse, with their chances before and then.</param>
public abstract record Rescue(double Chance, IReadOnlyList<LoweredPromise> Lowers)
{
    /// <summary>The bench opens for longer on a day, counted from today.</summary>
    public sealed record LongerDay(int Day, int Minutes, double Chance, IReadOnlyList<LoweredPromise> Lowers)
        : Rescue(Chance, Lowers);

    /// <summary>Some of the reeds are made elsewhere from now on: from an extra batch, or one under way, or the drawer.</summary>
    /// <param name="Root">The batch they were to come from; null where nothing makes them yet.</param>
    public sealed record MadeElsewhere(
        string? Root,
        PromiseLine Reeds,
        Promise From,
        double Chance,
        IReadOnlyList<LoweredPromise> Lowers
    ) : Rescue(Chance, Lowers);

    /// <summary>The buyer takes another strength as well.</summary>
    public sealed record OtherStrength(
        string Model,
        Strength Wanted,
        Strength Also,
        double Chance,
        IReadOnlyList<LoweredPromise> Lowers
    ) : Rescue(Chance, Lowers);

    /// <summary>Free reeds a quarter step softer are clipped: some come up to the strength, some do not.</summary>
    /// <param name="Missing">Reeds that are wanted.</param>
    /// <param name="Clipped">Reeds there are to clip.</param>
    /// <param name="Enough">The chance that as many as are wanted come up to it.</param>
    public sealed record Clip(
        string Model,
        Strength Wanted,
        int Missing,
        int Clipped,
        double Enough,
        double Chance,
        IReadOnlyList<LoweredPromise> Lowers
    ) : Rescue(Chance, Lowers);
}

/// <summary>A promise that stands worse than before.</summary>
public sealed record LoweredPromise(string Order, double From, double To);

/// <summary>Whether a promise needs the maker's eye.</summary>
public static class PromiseWatch
{
    /// <summary>A thousand draws tell a chance to a point or two; less than this below what was told is no news.</summary>
    private const double Noise = 0.03;

    /// <summary>So much below what was told is worth a look, whatever the level.</summary>
    private const double Fallen = 0.1;

    /// <summary>Its chance is clearly less than what was told.</summary>
    public static bool HasFallen(double chance, double stated) => stated > 0 && chance < stated - Fallen;

    /// <summary>Its chance has fallen below what was told, and below the level from which on the maker wants to know.</summary>
    /// <param name="stated">The chance told with the promise; 0 where none was told.</param>
    public static bool IsAtRisk(double chance, double stated, double level) =>
        chance < (stated > 0 ? Math.Min(level, stated - Noise) : level);
}

namespace ReedShop.Planning.Forecasting;

/// <summary>Why a promise is late in a draw.</summary>
public enum LateCause
{
    /// <summary>Too few reeds came out, and others had to be made.</summary>
    Short,

    /// <summary>The same, and there was no cane to make others from.</summary>
    Cane,

    /// <summary>Had every night left the blanks dry, it would have been in time.</summary>
    DampNights,

    /// <summary>Evenings were lost, or there were too few of them.</summary>
    Evenings,
}

/// <summary>When the reeds of a promise are all there in a draw.</summary>
/// <param name="Day">Counted from today; <see cref="Never"/> where they are not within the horizon.</param>
/// <param name="WasShort">Reeds were missing, and others had to be found or made for it.</param>
/// <param name="LackedCane">There was nothing to make them from.</param>
/// <param name="BatchFellShort">
/// Its own batches gave fewer reeds than it waits for. Where the drawer has them it is not short all the same.
/// </param>
/// <param name="DayIfDry">The day it would be, had every night been dry; told only where causes were asked for.</param>
internal readonly record struct Arrival(
    int Day,
    bool WasShort,
    bool LackedCane = false,
    bool BatchFellShort = false,
    int DayIfDry = Arrival.Never
)
{
    public const int Never = int.MaxValue;
}

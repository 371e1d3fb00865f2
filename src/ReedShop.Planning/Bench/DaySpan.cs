namespace ReedShop.Planning.Bench;

/// <summary>When a day opens first and closes last, in minutes from its midnight; a closed day has no time at all.</summary>
public readonly record struct DaySpan(int Opens, int Closes)
{
    private const int MinutesPerDay = 24 * 60;

    public bool IsOpen => Closes > Opens;

    /// <summary>Hours from the closing of a day so many nights before to the opening of this one.</summary>
    public double HoursSince(DaySpan before, int nights) => ((nights * MinutesPerDay) + Opens - before.Closes) / 60.0;
}

namespace ReedShop.Planning.Bench;

/// <summary>When a day opens first and closes last, in minutes from its midnight; a closed day has no time at all.</summary>
public readonly record struct DaySpan(int Opens, int Closes)
{
    private const int MinutesPerDay = 24 * 60;

    public bool IsOpen => Closes > Opens;

    /// <summary>Whether fewer hours lie between the closing of a day so many nights before and the opening of this one.</summary>
    public bool ComesTooSoon(DaySpan before, int nights, int leastHours) =>
        IsOpen && before.IsOpen && (nights * MinutesPerDay) + Opens - before.Closes < 60 * leastHours;
}

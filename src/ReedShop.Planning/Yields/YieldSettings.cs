namespace ReedShop.Planning.Yields;

/// <summary>What the shop decides about reading its history.</summary>
public sealed record YieldSettings
{
    public static YieldSettings Default { get; } = new();

    /// <summary>A batch this many days old weighs half of one of today; at least 1.</summary>
    public int HalfLifeDays
    {
        get;
        init => field = AtLeastOne(value);
    } = 365;

    /// <summary>Quarter steps between two grades the shop sorts into: 1 for quarters, 2 for half steps.</summary>
    public int QuartersBetweenGrades
    {
        get;
        init => field = AtLeastOne(value);
    } = 1;

    /// <summary>Weight of a batch, 1 for today (or a day still to come) and halved with every half-life.</summary>
    internal double Weight(DateOnly day, DateOnly today) =>
        Math.Pow(0.5, Math.Max(0, today.DayNumber - day.DayNumber) / (double)HalfLifeDays);

    private static int AtLeastOne(int value) =>
        value >= 1 ? value : throw new ArgumentOutOfRangeException(nameof(value), value, "Write a number from 1.");
}

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

    /// <summary>
    /// A batch older than a marker weighs this part of what its age leaves it, for every marker since; 0 to 1. A quarter
    /// unless changed: the hands are the same, so that what they did before still says something.
    /// </summary>
    public double BeforeMarker
    {
        get;
        init =>
            field = value is >= 0 and <= 1
                ? value
                : throw new ArgumentOutOfRangeException(nameof(value), value, "Write a share from 0 to 1.");
    } = 0.25;

    private static int AtLeastOne(int value) =>
        value >= 1 ? value : throw new ArgumentOutOfRangeException(nameof(value), value, "Write a number from 1.");
}

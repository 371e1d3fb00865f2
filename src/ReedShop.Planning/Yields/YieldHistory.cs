namespace ReedShop.Planning.Yields;

/// <summary>What one batch left of its blanks at one step.</summary>
/// <param name="In">Blanks that came to the step for the first time.</param>
/// <param name="Out">Blanks that survived it, after any redo.</param>
/// <param name="Redo">Blanks that failed the first time and were worked again.</param>
public sealed record StepCount(
    string Batch,
    string Model,
    string? CaneLot,
    DateOnly Day,
    string Step,
    int In,
    int Out,
    int Redo
);

/// <summary>Where the finished reeds of one batch landed: final grades, with the aim they were worked toward.</summary>
public sealed record BatchGrades(
    string Batch,
    string Model,
    string? CaneLot,
    DateOnly Day,
    Strength Aim,
    IReadOnlyDictionary<Strength, int> Counts
);

/// <summary>All that the bench has shown so far.</summary>
public sealed record YieldHistory(IReadOnlyList<StepCount> Steps, IReadOnlyList<BatchGrades> Grades)
{
    public static YieldHistory Empty { get; } = new([], []);
}

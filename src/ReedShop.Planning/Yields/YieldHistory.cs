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
)
{
    /// <summary>A batch taken over half-way may show survivors that were never seen to start: it says nothing of the step.</summary>
    internal bool IsTelling => In > 0 && Out <= In;
}

/// <summary>Where the finished reeds of one batch landed: final grades, with the aim they were worked toward.</summary>
public sealed record BatchGrades(
    string Batch,
    string Model,
    string? CaneLot,
    DateOnly Day,
    Strength Aim,
    IReadOnlyDictionary<Strength, int> Counts
)
{
    /// <summary>Trays of one batch share how hard it came out: what was graded tray by tray says so once.</summary>
    internal static IReadOnlyList<BatchGrades> Whole(IEnumerable<BatchGrades> trays) =>
        [
            .. trays
                .GroupBy(tray => (tray.Batch, tray.Model, tray.CaneLot, tray.Aim))
                .Select(batch =>
                    batch.First() with
                    {
                        Day = batch.Max(tray => tray.Day),
                        Counts = batch
                            .SelectMany(tray => tray.Counts)
                            .GroupBy(count => count.Key)
                            .ToDictionary(strength => strength.Key, strength => strength.Sum(count => count.Value)),
                    }
                ),
        ];
}

/// <summary>
/// A day from which on the bench works otherwise, as the maker says: a new blade, a new template, a new paper.
/// </summary>
/// <param name="Day">First day of the new way.</param>
/// <param name="Model">The model it touches; null for all of them.</param>
public sealed record YieldMarker(DateOnly Day, string? Model);

/// <summary>All that the bench has shown so far.</summary>
public sealed record YieldHistory(IReadOnlyList<StepCount> Steps, IReadOnlyList<BatchGrades> Grades)
{
    public static YieldHistory Empty { get; } = new([], []);

    public IReadOnlyList<BatchGrades> Grades { get; init; } = BatchGrades.Whole(Grades);

    public IReadOnlyList<YieldMarker> Markers { get; init; } = [];

    /// <summary>The last day from which on a model is made otherwise, or null.</summary>
    internal DateOnly? LastMarker(string model) =>
        Markers.Where(marker => marker.Model is null || marker.Model == model).Max(marker => (DateOnly?)marker.Day);
}

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The day of every sitting not yet done, by batch. A batch that found no place within the horizon is missing,
/// which the plan rules report as a breach.
/// </summary>
public sealed record Plan(IReadOnlyDictionary<string, int[]> Days)
{
    /// <summary>
    /// Who does each sitting: 0 the maker, 1 and up the helpers in order. A batch not named here is the maker's.
    /// </summary>
    public IReadOnlyDictionary<string, int[]> People { get; init; } =
        new Dictionary<string, int[]>(StringComparer.Ordinal);

    public static Plan Empty { get; } = new(new Dictionary<string, int[]>(StringComparer.Ordinal));
}

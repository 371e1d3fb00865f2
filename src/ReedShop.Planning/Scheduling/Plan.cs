namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The day of every sitting not yet done, by batch. A batch that found no place within the horizon is missing,
/// which the plan rules report as a breach.
/// </summary>
public sealed record Plan(IReadOnlyDictionary<string, int[]> Days)
{
    public static Plan Empty { get; } = new(new Dictionary<string, int[]>(StringComparer.Ordinal));
}

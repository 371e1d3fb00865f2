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

    /// <summary>Who does the sittings of a batch; empty where the plan does not name them.</summary>
    internal ReadOnlySpan<int> PeopleOf(string batchId) => People.GetValueOrDefault(batchId);

    /// <summary>The part of the plan that names these batches.</summary>
    public Plan Of(IEnumerable<string> batchIds)
    {
        var ids = batchIds.ToHashSet(StringComparer.Ordinal);
        return new Plan(Days.Where(batch => ids.Contains(batch.Key)).ToDictionary(StringComparer.Ordinal))
        {
            People = People.Where(batch => ids.Contains(batch.Key)).ToDictionary(StringComparer.Ordinal),
        };
    }

    /// <summary>The plan with a batch on other days, after all others, whoever works on them.</summary>
    public Plan With(string batchId, int[] days)
    {
        var others = Of(Days.Keys.Where(id => id != batchId));
        return new(new Dictionary<string, int[]>(others.Days, StringComparer.Ordinal) { [batchId] = days })
        {
            People = others.People,
        };
    }

    /// <summary>Whether a batch has the same days and the same people in another plan.</summary>
    public bool IsAsIn(Plan other, string batchId) =>
        other.Days.TryGetValue(batchId, out var days)
        && days.SequenceEqual(Days[batchId])
        && PeopleOf(batchId).SequenceEqual(other.PeopleOf(batchId));

    public static Plan Empty { get; } = new(new Dictionary<string, int[]>(StringComparer.Ordinal));
}

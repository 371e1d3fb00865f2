namespace ReedShop.Planning.Scheduling;

/// <summary>The set-ups of a workload as numbers: keys in the order of their names, and the sets of them that sittings use.</summary>
internal sealed class SetUpTable
{
    private readonly List<int[]> sets = [];
    private readonly Dictionary<string, int> numbers = new(StringComparer.Ordinal);

    public SetUpTable(Workload work, IReadOnlyList<WorkSitting> sittings)
    {
        var keys = work.SetUpMinutes.Keys.Order(StringComparer.Ordinal).ToArray();
        KeyMinutes = [.. keys.Select(key => work.SetUpMinutes[key])];
        Of = [.. sittings.Select(sitting => NumberOf(sitting, keys))];
        Keys = [.. sets];
        Minutes = [.. Keys.Select(set => set.Sum(key => KeyMinutes[key]))];
        With =
        [
            .. keys.Select(
                (_, key) => Enumerable.Range(0, Keys.Length).Where(set => Keys[set].Contains(key)).ToArray()
            ),
        ];
    }

    /// <summary>Number of the set each sitting uses.</summary>
    public int[] Of { get; }

    /// <summary>By set, the numbers of its keys.</summary>
    public int[][] Keys { get; }

    /// <summary>By set, the minutes of all its keys.</summary>
    public int[] Minutes { get; }

    public int[] KeyMinutes { get; }

    /// <summary>By key, the sets it is in.</summary>
    public int[][] With { get; }

    public int Count => Keys.Length;

    /// <summary>Sittings mostly name the same few sets, so that what they name is looked up before it is read.</summary>
    private int NumberOf(WorkSitting sitting, string[] names)
    {
        var told = string.Join('\n', sitting.SetUps);
        if (!numbers.TryGetValue(told, out var number))
        {
            int[] keys = [.. sitting.SetUps.Distinct().Select(name => Array.IndexOf(names, name)).Order()];
            number = sets.FindIndex(set => set.SequenceEqual(keys));
            if (number < 0)
            {
                number = sets.Count;
                sets.Add(keys);
            }

            numbers.Add(told, number);
        }

        return number;
    }
}

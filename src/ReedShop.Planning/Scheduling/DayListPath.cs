namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Lines in the order to do them, from some state to the end of the day's work. Better is: done sooner; then fewer
/// changes of tool; then, line by line, the earlier start and at equal starts the work that comes first by priority.
/// </summary>
internal sealed class DayListPath
{
    private readonly DayListMove? first;
    private readonly DayListPath? rest;
    private readonly int changes;

    private DayListPath(DayListMove? first, DayListPath? rest, int changes, int done) =>
        (this.first, this.rest, this.changes, Done) = (first, rest, changes, done);

    /// <summary>Nothing left to do.</summary>
    public static DayListPath Empty { get; } = new(null, null, 0, 0);

    /// <summary>The end of the last line, in minutes from midnight; 0 when there is none.</summary>
    public int Done { get; }

    public IEnumerable<DayListMove> Moves
    {
        get
        {
            for (var path = this; path.first is { } move; path = path.rest!)
            {
                yield return move;
            }
        }
    }

    /// <param name="before">The state in which <paramref name="move"/> is made.</param>
    public static DayListPath Of(DayListState before, DayListMove move, DayListPath rest) =>
        new(move, rest, before.Changes(move) + rest.changes, Math.Max(move.End, rest.Done));

    public static DayListPath? Better(DayListPath? one, DayListPath? other)
    {
        if (one is null || other is null)
        {
            return one ?? other;
        }

        return Compare(one, other) <= 0 ? one : other;
    }

    private static int Compare(DayListPath one, DayListPath other)
    {
        var order = (one.Done, one.changes).CompareTo((other.Done, other.changes));
        while (order == 0 && one != other && one.first is { } move && other.first is { } instead)
        {
            order = (move.Start, move.Rank).CompareTo((instead.Start, instead.Rank));
            (one, other) = (one.rest!, other.rest!);
        }

        return order;
    }
}

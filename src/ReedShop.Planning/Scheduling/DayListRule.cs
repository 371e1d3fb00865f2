namespace ReedShop.Planning.Scheduling;

/// <summary>
/// A quick order for any day: never wait while something can be done, and of what can be done take first what has the
/// longest road ahead, so that soaks begin early, or what needs the tool at hand; the better of the two is kept.
/// </summary>
internal static class DayListRule
{
    public static DayListPath? Order(DayListState start) =>
        DayListPath.Better(
            Follow(start, (state, move) => (-move.RoadAhead, state.Changes(move))),
            Follow(start, (state, move) => (state.Changes(move), -move.RoadAhead))
        );

    private static DayListPath? Follow(DayListState start, Func<DayListState, DayListMove, (int, int)> preference)
    {
        var made = new Stack<(DayListState Before, DayListMove Move)>();
        var state = start;
        while (
            state.Moves().OrderBy(move => move.Start).ThenBy(move => preference(state, move)).FirstOrDefault()
                is { } move
        )
        {
            made.Push((state, move));
            state = state.After(move);
        }

        return state.IsDone
            ? made.Aggregate(DayListPath.Empty, (rest, at) => DayListPath.Of(at.Before, at.Move, rest))
            : null;
    }
}

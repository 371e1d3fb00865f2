namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The best order of a day's work. Small days are searched exactly: what is best from a state on does not depend on
/// how it was reached, so each state is solved once, and states that cannot be done as soon as the quick rule is are
/// not looked at. Larger days get the quick rule.
/// </summary>
internal sealed class DayListSearch(int latestDone)
{
    private const int MostSittings = 6;

    /// <summary>Keeps the worst day under a second or two; what was found by then still competes with the rule.</summary>
    private const int MostStates = 100_000;

    private readonly Dictionary<string, DayListPath?> solved = new(StringComparer.Ordinal);

    /// <summary>The best order, or null when the work does not fit into the day.</summary>
    public static DayListPath? Order(DayListHours hours, IReadOnlyList<DayListWork> works)
    {
        var start = new DayListState(hours, works);
        var ruled = DayListRule.Order(start);
        return works.Count(work => work.Blanks.Count > 0) > MostSittings
            ? ruled
            : DayListPath.Better(ruled, new DayListSearch(ruled?.Done ?? hours.Closing).Best(start));
    }

    public static bool Fits(DayListHours hours, IReadOnlyList<DayListWork> works)
    {
        var start = new DayListState(hours, works);
        return start.LeastDone() <= hours.Closing
            && (DayListRule.Order(start) is not null || Order(hours, works) is not null);
    }

    private DayListPath? Best(DayListState state)
    {
        if (state.IsDone)
        {
            return DayListPath.Empty;
        }

        if (state.LeastDone() > latestDone)
        {
            return null;
        }

        var signature = state.Signature();
        if (!solved.TryGetValue(signature, out var best) && solved.Count < MostStates)
        {
            foreach (var move in state.Moves())
            {
                best = DayListPath.Better(
                    best,
                    Best(state.After(move)) is { } rest ? DayListPath.Of(state, move, rest) : null
                );
            }

            solved[signature] = best;
        }

        return best;
    }
}

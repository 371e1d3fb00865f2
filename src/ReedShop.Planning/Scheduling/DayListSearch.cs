namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The best order of a day's work. What is best from a state on does not depend on how it was reached, so each state is
/// solved once, and states from which the day cannot be done as soon as by the best order known are not looked at.
/// Days of up to six sittings are searched to the end; larger ones for a while, and what was found by then competes
/// with the quick rule.
/// </summary>
internal sealed class DayListSearch
{
    private const int MostSittings = 6;

    /// <summary>Only a guard: of 3000 random days of up to six sittings the worst needed 17 582.</summary>
    private const int MostStatesOfSmallDay = 200_000;

    /// <summary>A fraction of a second.</summary>
    private const int MostStatesOfLargeDay = 5_000;

    private readonly Dictionary<string, DayListPath?> solved = new(StringComparer.Ordinal);
    private readonly int mostStates;

    /// <summary>When the best order known is done, in minutes from midnight.</summary>
    private int leastDone;

    private DayListSearch(int mostStates, int leastDone) => (this.mostStates, this.leastDone) = (mostStates, leastDone);

    /// <summary>The best order, or null when the work does not fit into the day.</summary>
    public static DayListPath? Order(DayListHours hours, IReadOnlyList<DayListWork> works)
    {
        var start = new DayListState(hours, works);
        var ruled = DayListRule.Order(start);
        var allowance = IsSmall(works) ? MostStatesOfSmallDay : MostStatesOfLargeDay;
        var search = new DayListSearch(allowance, ruled?.Done ?? hours.Closing);
        return DayListPath.Better(ruled, search.Best(start));
    }

    /// <summary>Whether some order fits into the day. Of large days the quick rule is asked alone.</summary>
    public static bool Fits(DayListHours hours, IReadOnlyList<DayListWork> works)
    {
        var start = new DayListState(hours, works);
        return start.LeastDone() <= hours.Closing
            && (DayListRule.Order(start) is not null || (IsSmall(works) && Order(hours, works) is not null));
    }

    private static bool IsSmall(IReadOnlyList<DayListWork> works) =>
        works.Count(work => work.Blanks.Count > 0) <= MostSittings;

    private DayListPath? Best(DayListState state)
    {
        if (state.IsDone)
        {
            return DayListPath.Empty;
        }

        if (state.LeastDone() > leastDone)
        {
            return null;
        }

        var signature = state.Signature();
        if (!solved.TryGetValue(signature, out var best) && solved.Count < mostStates)
        {
            best = Solve(state);
            solved[signature] = best;
        }

        return best;
    }

    private DayListPath? Solve(DayListState state)
    {
        DayListPath? best = null;
        foreach (var move in state.Moves())
        {
            var path = Best(state.After(move)) is { } rest ? DayListPath.Of(state, move, rest) : null;
            best = DayListPath.Better(best, path);
            leastDone = Math.Min(leastDone, path?.Done ?? leastDone);
        }

        return best;
    }
}

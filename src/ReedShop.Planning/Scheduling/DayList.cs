using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Scheduling;

/// <summary>A sitting that is planned for the day.</summary>
/// <param name="Blanks">Blanks that come to the bench.</param>
/// <param name="Steps">The steps up to the next drying, in order.</param>
/// <param name="FirstStep">Number (from 1) of the first of them in the route.</param>
/// <param name="NotBefore">
/// From when the blanks may be touched, see <see cref="Night.NotBefore"/>; null when they lie ready.
/// </param>
/// <param name="Priority">1 comes before 2. Among equals the order given stands.</param>
public sealed record DaySitting(
    string Batch,
    int Blanks,
    IReadOnlyList<Step> Steps,
    int FirstStep,
    TimeOnly? NotBefore,
    int Priority
);

/// <summary>One line of the day list: one step of one batch, without a break.</summary>
/// <param name="Start">Local time at which the set-up, or the work where nothing is to be laid out, begins.</param>
/// <param name="Blanks">Blanks worked on this line; a step that the closed bench cuts in two has two lines.</param>
/// <param name="SetUpMinutes">Minutes to lay out the tool; 0 when an earlier line of the day has paid them.</param>
/// <param name="SoakUntil">Least time in the water; past midnight it is a time of the next morning.</param>
public sealed record DayLine(
    string Batch,
    int StepNumber,
    string StepName,
    TimeOnly Start,
    TimeOnly End,
    int Blanks,
    int SetUpMinutes,
    TimeOnly? SoakUntil,
    string? Caution
);

/// <summary>Blanks that wait before a step for the next open day, and why.</summary>
public sealed record CarriedBlanks(string Batch, int StepNumber, string StepName, int Blanks, string Reason);

/// <summary>The steps of one day in the order to do them, with clock times, and what stays undone.</summary>
public sealed record DayList(IReadOnlyList<DayLine> Lines, IReadOnlyList<CarriedBlanks> Carried)
{
    /// <summary>When the maker is done; null on a day without work.</summary>
    public TimeOnly? Done => Lines.Count == 0 ? null : Lines[^1].End;

    /// <summary>
    /// Lists a day. How many blanks go to the bench is settled first (<see cref="DayListShare"/>), then their order
    /// (<see cref="DayListSearch"/>). The same arguments always give the same list.
    /// </summary>
    /// <param name="hours">The open stretches of the day, in any order.</param>
    /// <param name="sittings">The sittings planned for the day, one or more of a batch.</param>
    public static DayList For(IReadOnlyList<OpenHours> hours, IReadOnlyList<DaySitting> sittings)
    {
        var open = new DayListHours(hours);
        var ranked = sittings.OrderBy(sitting => sitting.Priority).ToArray();
        var shares = DayListShare.Of(open, ranked);
        var work = shares.Select(share => share.Work).ToArray();
        var lines = DayListSearch.Order(open, work)?.Moves.Select(move => move.ToLine()).ToArray() ?? [];
        return new DayList(lines, [.. shares.SelectMany(share => share.Carried(open))]);
    }
}

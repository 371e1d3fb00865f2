using ReedShop.Planning.Bench;

namespace ReedShop.Planning.Scheduling;

/// <summary>How blanks are charged to the rack.</summary>
public enum RackCharge
{
    /// <summary>From the first sitting to the finish: a blank at rest needs its place too.</summary>
    WholeStay,

    /// <summary>Only on the nights a sitting requires after it.</summary>
    RequiredNights,
}

/// <summary>One sitting still to be done. Days are counted from the first day of the workload.</summary>
/// <param name="Nights">Least nights before the next sitting, or before the finish when it is the last.</param>
/// <param name="MostNights">Most nights before the next sitting; null where rest may last.</param>
/// <param name="PinnedDay">The day the maker chose, which the planner keeps.</param>
/// <param name="LeastHours">
/// Hours between the closing of its day and the opening of the next sitting's, at most 24: where the least nights are
/// too short for them, one more is enough.
/// </param>
/// <param name="Tiring">What it does of which a day may see only so many blanks.</param>
public sealed record WorkSitting(
    int Minutes,
    IReadOnlyList<string> SetUps,
    int Nights,
    int? MostNights = null,
    int? PinnedDay = null,
    int LeastHours = 0,
    TiringWork? Tiring = null
);

/// <summary>Work that tires lips or hands, and how many blanks of it a sitting brings.</summary>
public sealed record TiringWork(string Name, int Blanks);

/// <summary>A batch as the planner sees it.</summary>
/// <param name="ReleaseDay">First day its first remaining sitting may be done.</param>
/// <param name="DueDay">FinishBy; null for work that no promise waits for.</param>
/// <param name="OnRack">Its blanks already lie on the rack, so they are charged from day 0.</param>
/// <param name="LatestStart">
/// Last day its first remaining sitting may be done, where the sitting before it, done already, has most nights.
/// </param>
public sealed record WorkBatch(
    string Id,
    int Blanks,
    int ReleaseDay,
    int? DueDay,
    IReadOnlyList<WorkSitting> Sittings,
    int Weight = 1,
    bool OnRack = false,
    int? LatestStart = null
)
{
    /// <summary>
    /// Least nights after a sitting, counted from 0. Two sittings of a batch never share a day, so at least one night
    /// lies between them; after the last one the finish may be the same day.
    /// </summary>
    public int LeastNightsAfter(int sitting) =>
        sitting == Sittings.Count - 1 ? Sittings[sitting].Nights : Math.Max(1, Sittings[sitting].Nights);

    /// <summary>The day the batch is done: its last sitting and the nights that must follow it.</summary>
    public int FinishDay(IReadOnlyList<int> days) => days[^1] + LeastNightsAfter(Sittings.Count - 1);

    /// <summary>Nights from the first sitting to the finish if nothing ever waits.</summary>
    public int LeastStay => Enumerable.Range(0, Sittings.Count).Sum(LeastNightsAfter);
}

/// <summary>Everything the planner needs: what each day offers, what the rack holds, and what is to be done.</summary>
public sealed record Workload(
    IReadOnlyList<int> OpenMinutes,
    int RackBlanks,
    IReadOnlyDictionary<string, int> SetUpMinutes,
    IReadOnlyList<WorkBatch> Batches,
    RackCharge RackCharge = RackCharge.WholeStay
)
{
    /// <summary>Minutes each further person has, by day.</summary>
    public IReadOnlyList<IReadOnlyList<int>> Helpers { get; init; } = [];

    /// <summary>The most blanks of tiring work that one day may see, by its name.</summary>
    public IReadOnlyDictionary<string, int> MostBlanks { get; init; } =
        new Dictionary<string, int>(StringComparer.Ordinal);

    /// <summary>Blanks of tiring work that day 0 has seen already, by its name.</summary>
    public IReadOnlyDictionary<string, int> DoneToday { get; init; } =
        new Dictionary<string, int>(StringComparer.Ordinal);

    /// <summary>By day; empty where hours are not told and a night is a night. Closed days have no length.</summary>
    public IReadOnlyList<DaySpan> Spans { get; init; } = [];

    /// <summary>The maker and the helpers.</summary>
    public int People => 1 + Helpers.Count;

    /// <summary>Minutes a person has on a day; person 0 is the maker.</summary>
    public int MinutesOf(int person, int day) => person == 0 ? OpenMinutes[day] : Helpers[person - 1][day];

    /// <summary>Blanks of tiring work that a day may see, or still may where it has seen some.</summary>
    public int MostBlanksOn(string tiring, int day) =>
        Math.Max(0, MostBlanks[tiring] - (day == 0 ? DoneToday.GetValueOrDefault(tiring) : 0));

    /// <summary>Whether a rest of so many nights that ends on a day is shorter than the hours asked.</summary>
    public bool IsTooShort(int nights, int leastHours, int day) =>
        day < Spans.Count && day >= nights && Spans[day].ComesTooSoon(Spans[day - nights], nights, leastHours);
}

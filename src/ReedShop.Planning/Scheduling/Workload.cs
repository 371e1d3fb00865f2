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
public sealed record WorkSitting(
    int Minutes,
    IReadOnlyList<string> SetUps,
    int Nights,
    int? MostNights = null,
    int? PinnedDay = null
);

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
}

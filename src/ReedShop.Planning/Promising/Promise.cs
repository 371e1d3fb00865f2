using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

public sealed record PromiseLine(string Model, Strength Strength, int Quantity)
{
    /// <summary>Strengths that the buyer takes as well, beside neighbours.</summary>
    public IReadOnlyList<Strength> Also { get; init; } = [];
}

/// <param name="Neighbours">Half steps either side of each strength that the buyer accepts.</param>
public sealed record PromiseRequest(IReadOnlyList<PromiseLine> Lines, double Confidence, int Neighbours)
{
    /// <summary>The day the order comes, counted from today: nothing is started for it, and nothing leaves, on that day or before.</summary>
    public int OrderDay { get; init; }

    /// <summary>
    /// The strengths that serve a line, the wanted one first, then the nearest: with neighbours the quarter steps
    /// between serve too.
    /// </summary>
    public IEnumerable<Strength> Accepted(PromiseLine line) =>
        Enumerable
            .Range(-2 * Neighbours, (4 * Neighbours) + 1)
            .OrderBy(Math.Abs)
            .Select(line.Strength.QuartersAway)
            .OfType<Strength>()
            .Union(line.Also);
}

public sealed record DrawerReeds(Strength Strength, int Count);

/// <summary>A batch the promise starts, with the days the plan would give it.</summary>
/// <param name="FromShelf">Rested blanks: it walks the finishing leg only.</param>
/// <param name="NotBeforeDay">First day it may start, counted from today.</param>
public sealed record NewBatch(
    string Model,
    Strength Aim,
    string? CaneLot,
    bool FromShelf,
    int FirstStep,
    int LastStep,
    int Blanks,
    int NotBeforeDay,
    IReadOnlyList<BenchSitting> Sittings,
    IReadOnlyList<int> Days
)
{
    /// <summary>Who does each sitting, where the bench has several people.</summary>
    public IReadOnlyList<int> People { get; init; } = [];

    /// <summary>The day its last night is over, counted from today.</summary>
    public int FinishDay => Days[^1] + Sittings[^1].Work.Nights;

    public WayAhead Ahead => WayAhead.Of(Sittings);
}

/// <summary>How one line is served.</summary>
/// <param name="BatchRoot">A batch already there that gives <paramref name="FromBatch"/> reeds.</param>
/// <param name="Cover">Chance that the reeds to be made come out in the number and strength needed.</param>
/// <param name="FinishDay">When the last of them is done, counted from today.</param>
/// <param name="Ahead">What can be delayed before that.</param>
public sealed record PromisedLine(
    PromiseLine Line,
    IReadOnlyList<DrawerReeds> FromDrawer,
    string? BatchRoot,
    int FromBatch,
    IReadOnlyList<NewBatch> New,
    double Cover,
    int FinishDay,
    WayAhead Ahead
)
{
    public bool IsMade => New.Count > 0 || FromBatch > 0;

    public int ToMake => New.Count == 0 ? 0 : Line.Quantity - FromDrawer.Sum(reeds => reeds.Count) - FromBatch;

    public int Blanks => New.Sum(batch => batch.Blanks);

    /// <summary>How many of the reeds to be made each new batch is to give.</summary>
    public IEnumerable<int> Shares() =>
        New.Select((_, part) => (ToMake * (part + 1) / New.Count) - (ToMake * part / New.Count));
}

/// <summary>The answer to "when?".</summary>
/// <param name="FinishBy">The planner's due day: the latest that leaves the spare bench days before the parcel goes.</param>
/// <param name="Chance">Of shipping by <paramref name="ShipBy"/>: cover of all lines times the chance that damp nights add no more than the spare days.</param>
/// <param name="SpareDays">Open bench days kept free for damp nights.</param>
/// <param name="Moved">
/// Open batches that make way, with their new days and people: none of them ends later than its own due day,
/// or than it would have.
/// </param>
public sealed record Promise(
    DateOnly ShipBy,
    DateOnly FinishBy,
    double Confidence,
    double Chance,
    int SpareDays,
    IReadOnlyList<PromisedLine> Lines,
    Plan Moved
)
{
    public int Blanks => Lines.Sum(line => line.Blanks);

    /// <summary>The part of the chance that needs no extra batch: what the due day of the planner rests on.</summary>
    public double FirstTry { get; init; } = Chance;
}

/// <summary>Why no date can be promised.</summary>
public enum NoPromiseReason
{
    /// <summary>Not enough blanks on the shelf or seasoned cane for the chance asked.</summary>
    TooLittleCane,

    /// <summary>Too little is known of the yields: not even very many blanks reach the chance asked.</summary>
    TooUncertain,

    /// <summary>No place on the bench within the horizon.</summary>
    NoEvenings,

    /// <summary>No ship day reaches the chance asked.</summary>
    ChanceTooHigh,
}

public sealed record PromiseAnswer(Promise? Promise, NoPromiseReason? Reason)
{
    public static implicit operator PromiseAnswer(Promise promise) => new(promise, null);

    public static implicit operator PromiseAnswer(NoPromiseReason reason) => new(null, reason);
}

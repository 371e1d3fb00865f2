using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Promising;

/// <summary>Blanks that can still be started from one cane lot.</summary>
public sealed record CaneSupply(string Lot, DateOnly SeasonedFrom, int Blanks);

/// <summary>Rested blanks of one cane lot that no batch has claimed. An empty lot is an unknown one.</summary>
public sealed record ShelfSupply(string Lot, int Blanks);

/// <summary>What there is to make a model from.</summary>
/// <param name="Yields">The estimate for blanks of a cane lot, or of no known lot.</param>
public sealed record ModelSupply(
    ReedRoute Route,
    Func<string?, YieldEstimate> Yields,
    IReadOnlyList<ShelfSupply> Shelf,
    IReadOnlyList<CaneSupply> Cane
)
{
    /// <summary>What is left when some batches have taken their blanks.</summary>
    internal ModelSupply Without(IReadOnlyList<NewBatch> batches) =>
        batches.Count == 0
            ? this
            : this with
            {
                Shelf =
                [
                    .. Shelf.Select(rested =>
                        rested with
                        {
                            Blanks = rested.Blanks - Taken(batches, fromShelf: true, rested.Lot),
                        }
                    ),
                ],
                Cane =
                [
                    .. Cane.Select(lot => lot with { Blanks = lot.Blanks - Taken(batches, fromShelf: false, lot.Lot) }),
                ],
            };

    private static int Taken(IReadOnlyList<NewBatch> batches, bool fromShelf, string lot) =>
        batches.Where(batch => batch.FromShelf == fromShelf && (batch.CaneLot ?? "") == lot).Sum(batch => batch.Blanks);
}

/// <summary>A batch under way or planned whose reeds are not all spoken for.</summary>
/// <param name="NextStep">Of its tray that is farthest behind.</param>
/// <param name="FinishDay">Of its tray that finishes last, counted from today.</param>
/// <param name="Ahead">What can still delay it.</param>
/// <param name="Pegged">Reeds of the aim already spoken for.</param>
/// <param name="LeastCover">The cover its promises rest on, which a further peg may not lower.</param>
public sealed record OpenBatch(
    string Root,
    string Model,
    Strength Aim,
    string? CaneLot,
    int NextStep,
    int Blanks,
    int FinishDay,
    WayAhead Ahead,
    int Pegged,
    double LeastCover
)
{
    /// <summary>The strength its reeds are for: where a maker's reeds come out soft or hard it is worked toward another.</summary>
    public Strength Serves { get; init; } = Aim;
}

/// <summary>The shop as it stands: all a promise is made from. Day 0 of the work is today.</summary>
/// <param name="Hazards">What keeps the bench from going as planned.</param>
public sealed record ShopState(
    DateOnly Today,
    BenchCalendar Bench,
    ShipCalendar Ships,
    BenchHazards Hazards,
    int MostBlanksPerBatch,
    Workload Work,
    Plan Plan,
    IReadOnlyDictionary<(string Model, Strength Strength), int> DrawerFree,
    IReadOnlyDictionary<string, ModelSupply> Models,
    IReadOnlyList<OpenBatch> Batches
)
{
    internal CoverTables Covers { get; } = new();

    /// <summary>The trays of all batches, in the order of the workload.</summary>
    public IReadOnlyList<OpenTray> Trays { get; init; } = [];

    /// <summary>
    /// Orders that reeds of a strength would serve: what lies free in the drawer may be gone to one of them before somebody
    /// who came up short needs it.
    /// </summary>
    public IReadOnlyDictionary<(string Model, Strength Strength), ReedsOrdered> Ordered { get; init; } =
        new Dictionary<(string Model, Strength Strength), ReedsOrdered>();

    /// <summary>Quarter steps between two strengths the shop tells apart: 1, or 2 where it grades in half steps.</summary>
    public int QuartersBetweenGrades { get; init; } = 2;

    /// <summary>Chance that a reed a quarter step too soft comes up to strength when its tip is clipped.</summary>
    public double ClipChance { get; init; } = 0.6;

    /// <summary>Orders that wait for reeds, earliest promise first.</summary>
    public IReadOnlyList<OpenPromise> Promises { get; init; } = [];

    /// <summary>The last day reeds may be done for a parcel that leaves by a day, counted from today; below 0 where it is over.</summary>
    internal int LastDayFor(DateOnly shipBy)
    {
        var day = shipBy.DayNumber - Today.DayNumber;
        while (day >= 0 && !(Ships.FirstAfter(Today.AddDays(day)) <= shipBy))
        {
            day--;
        }

        return day;
    }
}

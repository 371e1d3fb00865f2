using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;
using Check = ReedShop.Planning.Routes.Check;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>
/// One batch of clarinet reeds on an open bench: flattened on one evening, dried for a night, finished on the next.
/// Parcels leave every day, so that reeds finished on day d leave on day d + 1.
/// </summary>
internal sealed record SmallShop
{
    public static readonly DateOnly Monday = new(2027, 3, 1);
    public static readonly Strength Three = Strength.OfQuarters(12);
    private const int Horizon = 100;
    private const int Evening = 60;

    public StepYield Finish { get; init; } = StepYield.OfShare(1);

    public int Blanks { get; init; } = 10;

    public int Nights { get; init; } = 1;

    public int? MostNights { get; init; }

    /// <summary>Days of the two sittings.</summary>
    public int[] Days { get; init; } = [0, 1];

    public BenchHazards Hazards { get; init; } = BenchHazards.OnlyDamp(0);

    /// <summary>Blanks of seasoned cane for extra batches.</summary>
    public int Cane { get; init; }

    /// <summary>Reeds of each order, and the day its parcel leaves at the latest, counted from today.</summary>
    public (int Reeds, int ShipBy)[] Orders { get; init; } = [(10, 2)];

    public ShopState State()
    {
        var route = Route();
        var sittings = BatchWork.Sittings(route, 1, route.Steps.Count, Blanks, Evening);
        var work = new Workload(
            [.. Enumerable.Repeat(Evening, Horizon)],
            100,
            BatchWork.SetUpMinutes([route]),
            [new WorkBatch("A", Blanks, 0, null, [.. sittings.Select(sitting => sitting.Work)])]
        );
        return new ShopState(
            Monday,
            new BenchCalendar(
                Enum.GetValues<DayOfWeek>()
                    .ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[new(new(19, 0), new(20, 0))]),
                new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
            ),
            new ShipCalendar(Enum.GetValues<DayOfWeek>().ToHashSet(), new HashSet<DateOnly>()),
            Hazards,
            24,
            work,
            new Plan(new Dictionary<string, int[]> { ["A"] = Days }),
            new Dictionary<(string, Strength), int>(),
            new Dictionary<string, ModelSupply> { ["clarinet"] = new(route, _ => Yields(), [], CaneLots()) },
            []
        )
        {
            Trays = [new OpenTray("A", "A", "clarinet", Three, "north", 1, Blanks, sittings)],
            Promises =
            [
                .. Orders.Select(
                    (order, number) =>
                        new OpenPromise(
                            $"order {number + 1}",
                            Monday.AddDays(order.ShipBy),
                            [new PeggedReeds("A", "clarinet", [Three], order.Reeds)]
                        )
                ),
            ],
        };
    }

    private ReedRoute Route()
    {
        var plate = new SetUp("plate", 5);
        return new([
            new Leg(
                "finishing",
                false,
                [
                    new Step("flatten", plate, 60, new Follow.Dry(Nights, 12, MostNights)),
                    new Step("finish", plate, 60, new Follow.StraightOn(), Check.Counted, RedoFrom: "flatten"),
                    new Step("grade", plate, 0, new Follow.StraightOn(), Check.Graded),
                ]
            ),
        ]);
    }

    private YieldEstimate Yields() =>
        YieldEstimate.Of(
            new Dictionary<string, StepYield> { ["finish"] = Finish, ["grade"] = StepYield.OfShare(1) },
            _ => GradeMix.Of([(1, new Dictionary<Strength, double> { [Three] = 1 })])
        );

    private CaneSupply[] CaneLots() => Cane == 0 ? [] : [new CaneSupply("north", Monday.AddYears(-1), Cane)];
}

using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Demo;

/// <summary>What lies in the invented workshop and when its bench is open, seen from any day.</summary>
public static class DemoBench
{
    public const string Zone = "Europe/Lisbon";

    private static readonly OpenHours[] Evening = [new(new TimeOnly(18, 30), new TimeOnly(21, 30))];
    private static readonly OpenHours[] SaturdayMorning = [new(new TimeOnly(9, 0), new TimeOnly(13, 30))];

    private static readonly Strength[] Strengths =
    [
        Strength.OfQuarters(10),
        Strength.OfQuarters(12),
        Strength.OfQuarters(14),
        Strength.OfQuarters(16),
    ];

    private static readonly (ReadyRoute Ready, string Cut, long PriceMinor)[] Sold =
    [
        (ReadyRoutes.Clarinet, "harbour", 480),
        (ReadyRoutes.BassClarinet, "harbour", 850),
        (ReadyRoutes.AltoSaxophone, "pier", 620),
    ];

    public static ShopView Settings(DateOnly today) =>
        new(
            "Tidewater Reeds (demo, invented)",
            Zone,
            "EUR",
            "maker@example.org",
            new Dictionary<DayOfWeek, IReadOnlyList<OpenHours>>
            {
                [DayOfWeek.Monday] = Evening,
                [DayOfWeek.Tuesday] = Evening,
                // Wednesdays are for rehearsals.
                [DayOfWeek.Thursday] = Evening,
                [DayOfWeek.Friday] = Evening,
                [DayOfWeek.Saturday] = SaturdayMorning,
            },
            ConcertWeek(today),
            [DayOfWeek.Tuesday, DayOfWeek.Friday],
            RackBlanks: 80,
            GradeSteps: GradeSteps.Half
        );

    public static IEnumerable<ReedModel> Models() =>
        Sold.Select(sold => new ReedModel
        {
            Key = sold.Ready.Model,
            Name = sold.Ready.Name,
            Instrument = sold.Ready.Instrument,
            Cut = sold.Cut,
            Strengths = Strengths,
            PriceMinor = sold.PriceMinor,
            Route = sold.Ready.Route,
            Selling = true,
            Version = 1,
        });

    public static IEnumerable<CaneLot> Cane(DateOnly today) =>
        DemoCane.All.Select(lot => new CaneLot
        {
            Key = lot.Key,
            Model = lot.Model,
            Supplier = "invented grower",
            Harvest = today.Year - (lot.IsFirst ? 4 : 3),
            SeasonedFrom = today.AddDays(lot.IsFirst ? -600 : -350),
            BlanksLeft = lot.Kindness < 0 ? 20 : 240,
        });

    /// <summary>Drawer, shelf and batches half-way.</summary>
    public static StartingWish Stock(DateOnly today)
    {
        var lastBenchDay = LastBenchDayBefore(today);
        return new StartingWish(
            [
                Drawer(ReadyRoutes.Clarinet, 2.5m, 16),
                Drawer(ReadyRoutes.Clarinet, 3, 24),
                Drawer(ReadyRoutes.Clarinet, 3.5m, 14),
                Drawer(ReadyRoutes.Clarinet, 4, 9),
                Drawer(ReadyRoutes.BassClarinet, 2.5m, 6),
                Drawer(ReadyRoutes.BassClarinet, 3, 4),
                Drawer(ReadyRoutes.BassClarinet, 4, 3),
                Drawer(ReadyRoutes.AltoSaxophone, 2.5m, 12),
                Drawer(ReadyRoutes.AltoSaxophone, 3, 8),
                Drawer(ReadyRoutes.AltoSaxophone, 3.5m, 4),
            ],
            [
                new StartingShelf(ReadyRoutes.Clarinet.Model, 8, "clarinet A"),
                new StartingShelf(ReadyRoutes.Clarinet.Model, 34, "clarinet B"),
                new StartingShelf(ReadyRoutes.BassClarinet.Model, 16, "bass B"),
                new StartingShelf(ReadyRoutes.AltoSaxophone.Model, 20, "alto A"),
            ],
            [
                HalfWay(ReadyRoutes.Clarinet, 18, "fine flatten", null, "clarinet B", lastBenchDay),
                HalfWay(ReadyRoutes.Clarinet, 12, "play in", 14, "clarinet B", lastBenchDay),
                HalfWay(ReadyRoutes.AltoSaxophone, 9, "play again", 12, "alto A", lastBenchDay),
                HalfWay(ReadyRoutes.BassClarinet, 8, "play in", 12, "bass B", lastBenchDay),
            ],
            []
        );
    }

    /// <summary>The second week from now on: rehearsals and concerts every evening.</summary>
    private static OtherDay[] ConcertWeek(DateOnly today)
    {
        var monday = today.AddDays(14 - (((int)today.DayOfWeek + 6) % 7));
        return [.. Enumerable.Range(0, 6).Select(day => new OtherDay(monday.AddDays(day), [], "concert week"))];
    }

    private static DateOnly LastBenchDayBefore(DateOnly today)
    {
        var bench = Settings(today).ToSettings().Bench;
        var day = today.AddDays(-1);
        while (bench.OpenMinutes(day) == 0)
        {
            day = day.AddDays(-1);
        }

        return day;
    }

    private static DrawerCountWish Drawer(ReadyRoute ready, decimal strength, int count) =>
        new(ready.Model, Strength.OfQuarters((int)(strength * 4)), count);

    private static StartingBatch HalfWay(
        ReadyRoute ready,
        int blanks,
        string nextStep,
        int? aimQuarters,
        string lot,
        DateOnly lastWorkedOn
    ) =>
        new(
            ready.Model,
            blanks,
            ready.Route.NumberOf(nextStep)!.Value,
            aimQuarters is { } quarters ? Strength.OfQuarters(quarters) : null,
            lot,
            lastWorkedOn
        );
}

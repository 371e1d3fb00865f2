using ReedShop.Planning;
using ReedShop.Planning.Routes;

namespace ReedShop.Catalogue;

/// <summary>A route to start from, with the model it is meant for.</summary>
public sealed record ReadyRoute(string Model, string Name, string Instrument, ReedRoute Route);

/// <summary>
/// Routes for a new shop to start from and make its own. Order of steps, minutes and nights: common practice, no source.
/// Sanded, soaked and dried overnight twice, blanks are ready for the knife on the third day.
/// </summary>
public static class ReadyRoutes
{
    private const int LeastHours = 12;
    private const string Dust = "Cane dust: extraction on, mask fitted; wipe wet, never blow.";
    private const string Blade = "Sharp edge: keep both hands behind it.";
    private const string Water = "Fresh water and a clean dish; throw away anything with mould.";
    private const string Mouth = "Clean mouthpiece and hands; rinse and dry each reed before the rack.";

    // What is placed in a dish stays wet and airless until it is spread out: a step of its own, if a short one.
    private static readonly SetUp Rack = new("rack", 1);
    private static readonly SetUp Mouthpiece = new("mouthpiece", 3);
    private static readonly Follow.StraightOn Next = new();
    private static readonly Follow.Dry OvernightOrLonger = new(1, LeastHours, MostNights: null);

    public static ReadyRoute Clarinet { get; } =
        new(
            "clarinet",
            "B-flat clarinet",
            "B-flat clarinet",
            Route("clarinet", new Times(60, 45, 80, 200, 30, 90), ClarinetHeel)
        );

    public static ReadyRoute BassClarinet { get; } =
        new(
            "bass-clarinet",
            "Bass clarinet",
            "bass clarinet",
            Route("bass clarinet", new Times(85, 60, 100, 270, 35, 120))
        );

    public static ReadyRoute AltoSaxophone { get; } =
        new(
            "alto-saxophone",
            "Alto saxophone",
            "alto saxophone",
            Route("alto saxophone", new Times(75, 55, 90, 240, 30, 100))
        );

    public static IReadOnlyList<ReadyRoute> All { get; } = [Clarinet, BassClarinet, AltoSaxophone];

    // The heel of a finished reed is 2.8 to 3.3 mm thick: common practice, no source.
    private static Measure ClarinetHeel => new(new Thickness(305, LengthUnit.Millimetre), 25);

    private static ReedRoute Route(string cut, Times seconds, Measure? heel = null) =>
        new([
            new Leg("preparation", EndsOnShelf: true, Preparation(seconds, heel)),
            new Leg("finishing", EndsOnShelf: false, Finishing(cut, seconds)),
        ]);

    private static Step[] Preparation(Times seconds, Measure? heel) =>
        [
            new(
                "coarse flatten",
                new SetUp("coarse plate", 4),
                seconds.CoarseFlatten,
                new Follow.Soak(10),
                Caution: Dust
            ),
            new("first rack", Rack, 6, OvernightOrLonger, Caution: Water),
            // A blank that rocks on the glass goes back to the coarse plate and through its night again.
            new(
                "fine flatten",
                new SetUp("fine plate", 4),
                seconds.FineFlatten,
                new Follow.Soak(10),
                Check.Counted,
                RedoFrom: "coarse flatten",
                Caution: Dust,
                Measure: heel
            ),
            new("second rack", Rack, 6, OvernightOrLonger, Caution: Water),
        ];

    private static Step[] Finishing(string cut, Times seconds) =>
        [
            new("sides", new SetUp("side jig and gauge", 4), seconds.Sides, Next, Check.Counted, Caution: Dust),
            new("profile", new SetUp($"{cut} profile", 8), seconds.Profile, Next, Check.Counted, Caution: Blade),
            new("clip", new SetUp($"{cut} clipper", 2), seconds.Clip, OvernightOrLonger, Check.Counted, Caution: Blade),
            new(
                "play in",
                Mouthpiece,
                seconds.PlayIn,
                OvernightOrLonger,
                Check.Counted,
                MostPerDay: 12,
                Caution: Mouth
            ),
            new("play again", Mouthpiece, seconds.PlayIn, Next, Check.Counted, MostPerDay: 12, Caution: Mouth),
            new("grade", Mouthpiece, seconds.PlayIn / 2, Next, Check.Graded, Caution: Mouth),
        ];

    /// <summary>Hands-on seconds for one blank.</summary>
    private sealed record Times(int CoarseFlatten, int FineFlatten, int Sides, int Profile, int Clip, int PlayIn);
}

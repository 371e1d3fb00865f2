using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;

namespace ReedShop.Lab.Trials;

/// <summary>What a maker knows of the own shop on the first day: hours, rack, models. The yields are not among it.</summary>
internal sealed record Premises(
    BenchCalendar Bench,
    ShipCalendar Ships,
    int RackBlanks,
    int QuartersBetweenGrades,
    IReadOnlyList<TrialModel> Models
)
{
    public const int MostBlanksPerBatch = 24;

    /// <summary>Orders that come later in the day find the evening over.</summary>
    public const int EveningHour = 18;

    /// <summary>The allowance the program starts with. Invented shops are damper or drier than that.</summary>
    public const double DampNightChance = 0.1;

    public const double LostEveningChance = 0.05;

    private const double ReedsPerOrder = 12;
    private const double MinutesPerBlank = 12;
    private const int QuarterOfAnHour = 15;
    private static readonly DayOfWeek[] Evenings =
    [
        DayOfWeek.Monday,
        DayOfWeek.Wednesday,
        DayOfWeek.Friday,
        DayOfWeek.Tuesday,
        DayOfWeek.Thursday,
    ];

    /// <summary>
    /// The bench is open as long as the orders of a year ask for, with something to spare: a shop that could never keep
    /// up would say nothing about promises. Off-strength reeds make quarter steps dearer, so such a bench is open longer.
    /// </summary>
    public static Premises Draw(ulong seed, double ordersPerYear)
    {
        var dice = Draws.At(seed, What.Premises);
        var quarters = dice.Happens(0.5) ? 1 : 2;
        var blanks = ordersPerYear * ReedsPerOrder * (quarters == 1 ? 3 : 2);
        var weekly = blanks * MinutesPerBlank / 52 / dice.Between(0.35, 0.75);
        var days = dice.Between(3, 5);
        var minutes = Math.Clamp(QuarterOfAnHour * (int)(weekly / (days + 1.5) / QuarterOfAnHour), 60, 240);
        var models = dice.Between(1, 2);
        return new Premises(
            new BenchCalendar(Week(days, minutes), new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()),
            new ShipCalendar(
                dice.Happens(0.5)
                    ? new HashSet<DayOfWeek> { DayOfWeek.Monday, DayOfWeek.Thursday }
                    : new HashSet<DayOfWeek> { DayOfWeek.Tuesday, DayOfWeek.Wednesday, DayOfWeek.Friday },
                new HashSet<DateOnly>()
            ),
            dice.Between(70, 160),
            quarters,
            [.. TrialModel.All.Take(models)]
        );
    }

    /// <summary>The same week by week, with no hours on so many days.</summary>
    public Premises Closed(DateOnly first, int days)
    {
        const int weekDays = 7;
        var week = Enumerable.Range(1, weekDays).Select(back => first.AddDays(-back));
        var closed = Enumerable.Range(0, days).Select(first.AddDays);
        return this with
        {
            Bench = new BenchCalendar(
                week.ToDictionary(day => day.DayOfWeek, Bench.HoursOn),
                closed.ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[])
            ),
        };
    }

    private static Dictionary<DayOfWeek, IReadOnlyList<OpenHours>> Week(int days, int minutes)
    {
        var week = Evenings.Take(days).ToDictionary(day => day, _ => Hours(18, minutes));
        week[DayOfWeek.Saturday] = Hours(10, minutes * 3 / 2);
        return week;
    }

    private static IReadOnlyList<OpenHours> Hours(int from, int minutes) =>
        [new OpenHours(new TimeOnly(from, 0), new TimeOnly(from, 0).AddMinutes(minutes))];
}

/// <summary>An invented reed model, with its route.</summary>
internal sealed record TrialModel(string Name, ReedRoute Route)
{
    private const int LeastHours = 12;
    private static readonly Follow.StraightOn Next = new();
    private static readonly Follow.Dry Overnight = new(1, LeastHours, MostNights: null);

    public static IReadOnlyList<TrialModel> All { get; } = [Made("clarinet", 60), Made("alto saxophone", 75)];

    /// <summary>Five sittings and four nights; a blank that rocks is flattened and dried once more.</summary>
    private static TrialModel Made(string name, int seconds) =>
        new(
            name,
            new ReedRoute([
                new Leg("preparation", EndsOnShelf: true, Preparation(seconds)),
                new Leg("finishing", EndsOnShelf: false, Finishing(name, seconds)),
            ])
        );

    private static Step[] Preparation(int seconds) =>
        [
            new("coarse flatten", new SetUp("coarse plate", 4), seconds, Overnight),
            new(
                "fine flatten",
                new SetUp("fine plate", 4),
                seconds,
                Overnight,
                Check.Counted,
                RedoFrom: "coarse flatten"
            ),
        ];

    private static Step[] Finishing(string name, int seconds) =>
        [
            new("sides", new SetUp("side jig", 4), seconds, Next, Check.Counted),
            new("profile", new SetUp($"{name} profile", 8), 3 * seconds, Next, Check.Counted),
            new("clip", new SetUp($"{name} clipper", 2), seconds / 2, Overnight, Check.Counted),
            new("play in", new SetUp("mouthpiece", 3), seconds, Overnight, Check.Counted),
            new("grade", new SetUp("mouthpiece", 3), seconds, Next, Check.Graded),
        ];
}

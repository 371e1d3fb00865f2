using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Tests.Scheduling;
using ReedShop.Planning.Yields;
using Check = ReedShop.Planning.Routes.Check;

namespace ReedShop.Planning.Tests.Promising;

/// <summary>
/// A bench with work on it and one model. Five of its reeds need one evening of flattening, a night, and one of
/// profiling. Parcels leave every day, nights are never damp and no blank is ever lost, so the ship day is the day after
/// the planned finish.
/// </summary>
internal static class ClarinetBench
{
    public const int Evening = 60;
    public const int Horizon = 60;
    public static readonly DateOnly Monday = new(2027, 3, 1);
    public static readonly PromiseRequest FiveReeds = Reeds(5);

    private static Strength Three => Strength.OfQuarters(12);

    public static PromiseRequest Reeds(int quantity) => new([new PromiseLine("clarinet", Three, quantity)], 0.9, 0);

    public static WorkBatch WholeEvening(string id, int due) => Given.Batch(id, due, Given.Sitting(Evening));

    public static ShopState Shop(WorkBatch one, int[] oneDays, WorkBatch other, int[] otherDays) =>
        Shop(Given.Evenings(Horizon, Evening, one, other), Given.Plan((one.Id, oneDays), (other.Id, otherDays)));

    public static ShopState Shop(Workload work, Plan plan)
    {
        var plate = new SetUp("plate", 10);
        var route = new ReedRoute([
            new Leg(
                "finishing",
                false,
                [
                    new Step("flatten", plate, 120, new Follow.Dry(1, 12, null)),
                    new Step("profile", plate, 240, new Follow.StraightOn(), Check.Counted),
                    new Step("grade", plate, 30, new Follow.StraightOn(), Check.Graded),
                ]
            ),
        ]);
        var yields = YieldEstimate.Of(
            new Dictionary<string, StepYield> { ["profile"] = StepYield.OfShare(1), ["grade"] = StepYield.OfShare(1) },
            _ => GradeMix.Of([(1, new Dictionary<Strength, double> { [Three] = 1 })])
        );
        var setUps = new Dictionary<string, int>(work.SetUpMinutes) { ["plate"] = 10 };
        return new ShopState(
            Monday,
            new BenchCalendar(
                Enum.GetValues<DayOfWeek>()
                    .ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[new(new(19, 0), new(20, 0))]),
                new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
            ),
            new ShipCalendar(Enum.GetValues<DayOfWeek>().ToHashSet(), new HashSet<DateOnly>()),
            BenchHazards.OnlyDamp(0),
            24,
            work with
            {
                SetUpMinutes = setUps,
            },
            plan,
            new Dictionary<(string, Strength), int>(),
            new Dictionary<string, ModelSupply>
            {
                ["clarinet"] = new(route, _ => yields, [], [new CaneSupply("north", Monday.AddYears(-1), 100)]),
            },
            []
        );
    }
}

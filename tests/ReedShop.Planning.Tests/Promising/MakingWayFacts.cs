using CsCheck;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Tests.Scheduling;
using ReedShop.Planning.Yields;
using Xunit;
using Check = ReedShop.Planning.Routes.Check;

namespace ReedShop.Planning.Tests.Promising;

/// <summary>
/// Five reeds need one evening of flattening, a night, and one of profiling. Parcels leave every day, nights are never
/// damp and no blank is ever lost, so the ship day is the day after the planned finish.
/// </summary>
public sealed class MakingWayFacts
{
    private const int Evening = 60;
    private const int Horizon = 60;
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly DateOnly Monday = new(2027, 3, 1);
    private static readonly PromiseRequest FiveReeds = new([new PromiseLine("clarinet", Three, 5)], 0.9, 0);

    [Fact]
    public void Open_batches_make_way_as_far_as_their_own_promises_allow()
    {
        var shop = Shop(WholeEvening("A", due: 20), [1], WholeEvening("B", due: 20), [2]);

        var promise = Promiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(Monday.AddDays(5), Promiser.PromiseAmongStanding(shop, FiveReeds).Promise!.ShipBy);
        Assert.Equal(Monday.AddDays(3), promise.ShipBy);
        Assert.Equal([1, 2], promise.Lines[0].New[0].Days);
        Assert.All(promise.Moved.Days.Values, days => Assert.InRange(days[0], 3, 20));
    }

    [Fact]
    public void Nobody_moves_whose_own_promise_would_suffer()
    {
        var shop = Shop(WholeEvening("A", due: 1), [1], WholeEvening("B", due: 20), [2]);

        var promise = Promiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(Monday.AddDays(4), promise.ShipBy);
        Assert.Equal(["B"], promise.Moved.Days.Keys);
    }

    [Fact]
    public void Nobody_moves_for_a_parcel_that_leaves_on_the_same_day_anyway()
    {
        var shop = Shop(WholeEvening("A", due: 20), [1], WholeEvening("B", due: 20), [2]) with
        {
            Ships = new ShipCalendar(new HashSet<DayOfWeek> { DayOfWeek.Monday }, new HashSet<DateOnly>()),
        };

        var promise = Promiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(Monday.AddDays(7), promise.ShipBy);
        Assert.Empty(promise.Moved.Days);
    }

    [Fact]
    public void The_list_that_was_told_for_today_stays()
    {
        var shop = Shop(WholeEvening("A", due: 20), [0], WholeEvening("B", due: 20), [1]);

        var promise = Promiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(["B"], promise.Moved.Days.Keys);
        Assert.True(promise.Moved.Days["B"][0] > 0);
    }

    [Fact]
    public void What_was_quoted_is_found_again_when_it_is_ordered()
    {
        var shop = Shop(WholeEvening("A", due: 20), [1], WholeEvening("B", due: 20), [2]);
        var quoted = Promiser.Promise(shop, FiveReeds).Promise!;

        var ordered = Promiser.PromiseBy(shop, FiveReeds, quoted.ShipBy).Promise!;

        Assert.Equal(
            (quoted.Chance, quoted.Blanks, quoted.FinishBy),
            (ordered.Chance, ordered.Blanks, ordered.FinishBy)
        );
        Assert.Equal(quoted.Lines[0].New[0].Days, ordered.Lines[0].New[0].Days);
        Assert.Equal(quoted.Moved.Days, ordered.Moved.Days);
    }

    [Fact]
    public void Whatever_lies_on_the_bench_every_rule_and_every_promise_is_kept_and_nothing_ships_later()
    {
        var madeWay = 0;
        Anything
            .Work(Horizon, 8)
            .Sample(
                work =>
                {
                    var shop = Shop(work);
                    var among = Promiser.PromiseAmongStanding(shop, FiveReeds).Promise;
                    if (Promiser.Promise(shop, FiveReeds).Promise is not { } promise)
                    {
                        Assert.Null(among);
                        return;
                    }

                    Assert.True(promise.ShipBy <= among!.ShipBy);
                    Assert.All(
                        shop.Work.Batches.Where(batch =>
                            promise.Moved.Days.ContainsKey(batch.Id) && batch.DueDay is not null
                        ),
                        batch =>
                            Assert.True(
                                batch.FinishDay(promise.Moved.Days[batch.Id])
                                    <= Math.Max(batch.DueDay!.Value, batch.FinishDay(shop.Plan.Days[batch.Id]))
                            )
                    );
                    Assert.All(
                        Accepted(shop, promise),
                        breach => Assert.Equal(PlanRule.EveryBatchPlanned, breach.Rule)
                    );
                    Interlocked.Add(ref madeWay, Math.Sign(promise.Moved.Days.Count));
                },
                iter: 500
            );
        Assert.NotEqual(0, madeWay);
    }

    /// <summary>What the bench would break once the promise is accepted.</summary>
    private static IReadOnlyList<PlanBreach> Accepted(ShopState shop, Promise promise)
    {
        var batches = promise.Lines[0].New.Select((batch, n) => (Id: $"accepted {n}", Batch: batch)).ToArray();
        var days = shop.Plan.Days.Concat(batches.Select(b => KeyValuePair.Create(b.Id, b.Batch.Days.ToArray())));
        var people = shop.Plan.People.Concat(batches.Select(b => KeyValuePair.Create(b.Id, b.Batch.People.ToArray())));
        return PlanRules.Check(
            shop.Work with
            {
                Batches =
                [
                    .. shop.Work.Batches,
                    .. batches.Select(b => new WorkBatch(
                        b.Id,
                        b.Batch.Blanks,
                        b.Batch.NotBeforeDay,
                        null,
                        [.. b.Batch.Sittings.Select(sitting => sitting.Work)]
                    )),
                ],
            },
            new Plan(
                days.ToDictionary(pair => pair.Key, pair => promise.Moved.Days.GetValueOrDefault(pair.Key, pair.Value))
            )
            {
                People = people.ToDictionary(
                    pair => pair.Key,
                    pair => promise.Moved.People.GetValueOrDefault(pair.Key, pair.Value)
                ),
            }
        );
    }

    private static WorkBatch WholeEvening(string id, int due) => Given.Batch(id, due, Given.Sitting(Evening));

    private static ShopState Shop(WorkBatch one, int[] oneDays, WorkBatch other, int[] otherDays) =>
        Shop(Given.Evenings(Horizon, Evening, one, other), Given.Plan((one.Id, oneDays), (other.Id, otherDays)));

    private static ShopState Shop(Workload work) => Shop(work, Given.Build(work, new PlanBudget(0)));

    private static ShopState Shop(Workload work, Plan plan)
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
            0,
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

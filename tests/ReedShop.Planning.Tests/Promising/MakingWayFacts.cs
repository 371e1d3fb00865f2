using CsCheck;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Tests.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Promising.ClarinetBench;

namespace ReedShop.Planning.Tests.Promising;

public sealed class MakingWayFacts
{
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
        var (madeWay, ofSeveral, ofSeveralWithHelp) = (0, 0, 0);
        Gen.Select(Anything.Work(12, 12), Gen.Int[0, 3], Gen.Int[4, 15], Gen.Int[3, 6])
            .Sample(
                (work, calm, quantity, mostBlanks) =>
                {
                    var shop = Shop(work, Given.Build(calm == 0 ? work : Hurried(work), new PlanBudget(0))) with
                    {
                        MostBlanksPerBatch = mostBlanks,
                    };
                    var request = Reeds(quantity);
                    var among = Promiser.PromiseAmongStanding(shop, request).Promise;
                    if (Promiser.Promise(shop, request).Promise is not { } promise)
                    {
                        Assert.Null(among);
                        return;
                    }

                    var started = promise.Lines[0].New;
                    Assert.True(promise.ShipBy <= among!.ShipBy);
                    Assert.All(started, batch => Assert.True(Monday.AddDays(batch.FinishDay) <= promise.FinishBy));
                    AssertPromisesKept(shop, promise);
                    AssertRulesKept(shop, promise);
                    var moved = promise.Moved.Days.Count > 0;
                    Count(ref madeWay, moved);
                    Count(ref ofSeveral, moved && started.Count > 1);
                    Count(ref ofSeveralWithHelp, moved && started.Count(HasHelp) > 1);
                },
                iter: 2000
            );
        Assert.All(new[] { madeWay, ofSeveral, ofSeveralWithHelp }, count => Assert.NotEqual(0, count));
    }

    /// <summary>Everything as early as it may be, which fills the first evenings and leaves room to make way.</summary>
    private static Workload Hurried(Workload work) =>
        work with
        {
            Batches = [.. work.Batches.Select(batch => batch with { DueDay = 0 })],
        };

    private static void Count(ref int cases, bool isOne) => Interlocked.Add(ref cases, isOne ? 1 : 0);

    private static bool HasHelp(NewBatch batch) => batch.People.Any(person => person > 0);

    /// <summary>Whoever makes way is done by the due day, or no later than before.</summary>
    private static void AssertPromisesKept(ShopState shop, Promise promise) =>
        Assert.All(
            shop.Work.Batches.Where(batch => promise.Moved.Days.ContainsKey(batch.Id) && batch.DueDay is not null),
            batch =>
                Assert.True(
                    batch.FinishDay(promise.Moved.Days[batch.Id])
                        <= Math.Max(batch.DueDay!.Value, batch.FinishDay(shop.Plan.Days[batch.Id]))
                )
        );

    /// <summary>Only what had no place on the bench before has none once the promise is accepted.</summary>
    private static void AssertRulesKept(ShopState shop, Promise promise) =>
        Assert.Equal(
            shop.Work.Batches.Select(batch => batch.Id).Where(id => !shop.Plan.Days.ContainsKey(id)),
            Accepted(shop, promise)
                .Select(breach => breach.Rule == PlanRule.EveryBatchPlanned ? breach.BatchId : breach.ToString())
        );

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
}

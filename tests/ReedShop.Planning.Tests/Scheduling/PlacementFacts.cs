using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class PlacementFacts
{
    private const int Days = 14;

    private static readonly PlanBudget OneConstruction = new(0);

    private static readonly Gen<(Workload Work, Plan Others, WorkBatch Newcomer)> Question =
        from work in Anything.Work(Days, 4)
        from newcomer in Anything.Batch(Days)
        from pin in Gen.Int[-9, Days - 1]
        select (work, Build(work, OneConstruction), Pin(newcomer with { Id = "new" }, pin));

    private static WorkBatch Pin(WorkBatch batch, int day) =>
        day < 0
            ? batch
            : batch with
            {
                Sittings = [batch.Sittings[0] with { PinnedDay = day }, .. batch.Sittings.Skip(1)],
            };

    [Fact]
    public void The_best_place_is_as_cheap_as_the_cheapest_of_all_places() =>
        Question.Sample(
            question =>
            {
                var places = Anything.Places(question.Work, question.Others, question.Newcomer).ToArray();
                var found = Planner.PlaceBest(question.Work, question.Others, question.Newcomer);
                Assert.Equal(places.Length == 0, found is null);
                if (found is not null)
                {
                    Assert.Contains(found, places);
                    Assert.Equal(
                        places.Min(days => PlanCost.Of(question.Newcomer, days)),
                        PlanCost.Of(question.Newcomer, found)
                    );
                }
            },
            iter: 2000
        );

    [Fact]
    public void The_earliest_place_finishes_as_early_as_the_earliest_of_all_places() =>
        Question.Sample(
            question =>
            {
                var places = Anything.Places(question.Work, question.Others, question.Newcomer).ToArray();
                var found = Planner.PlaceEarliest(question.Work, question.Others, question.Newcomer);
                Assert.Equal(places.Length == 0, found is null);
                if (found is not null)
                {
                    Assert.Contains(found, places);
                    Assert.Equal(places.Min(days => days[^1]), found[^1]);
                }
            },
            iter: 2000
        );

    [Theory]
    [InlineData(100)]
    [InlineData(300)]
    public void A_rest_of_months_is_placed_as_exactly_as_one_of_days(int nights)
    {
        var batch = Batch("A", 390, Sitting(30, nights), Sitting(30, nights: 1, most: 1), Sitting(30));
        var work = Evenings(400, 60, batch);

        Assert.Equal([389 - nights, 389, 390], Planner.PlaceBest(work, Plan(), batch)!);
        Assert.Equal([0, nights, nights + 1], Planner.PlaceEarliest(work, Plan(), batch)!);
    }

    [Fact]
    public void A_batch_is_placed_before_a_long_holiday_that_its_nights_must_not_span()
    {
        var batch = Batch("A", 190, Sitting(30, nights: 1, most: 4), Sitting(30));
        int[] minutes = [.. Enumerable.Repeat(60, 40), .. Enumerable.Repeat(0, 160), 60];
        var work = Evenings(201, 60, batch) with { OpenMinutes = minutes };

        Assert.Equal([38, 39], Planner.PlaceBest(work, Plan(), batch)!);
    }

    [Fact]
    public void Among_equal_places_the_day_that_is_set_up_already_is_taken()
    {
        var other = Batch("A", 3, Sitting(20, setUps: "plate"));
        var batch = Batch("B", 6, Sitting(20, nights: 1, most: 5), Sitting(20, 1, 5, "plate"), Sitting(20)) with
        {
            ReleaseDay = 0,
        };
        var work = Evenings(7, 60, other, batch);
        var blocked = work with { OpenMinutes = [60, 0, 60, 60, 0, 0, 60] };

        Assert.Equal([2, 3, 6], Planner.PlaceBest(blocked, Plan(("A", [3])), batch)!);
    }

    [Fact]
    public void Batches_of_the_others_that_are_none_of_the_workload_take_no_bench()
    {
        var batch = Batch("A", 0, Sitting(50));

        Assert.Equal([0], Planner.PlaceBest(Evenings(2, 60, batch), Plan(("gone", [0])), batch)!);
    }
}

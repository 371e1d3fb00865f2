using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using Xunit;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>Two batches stand at the bench; each sitting takes ten minutes and five for the plate.</summary>
public sealed class TonightFacts
{
    /// <summary>A must be flattened tonight to leave in two days; B has a week.</summary>
    private static ShopState TwoBatches()
    {
        var shop = new SmallShop().State();
        return shop with
        {
            Work = shop.Work with { Batches = [.. shop.Work.Batches, shop.Work.Batches[0] with { Id = "B" }] },
            Plan = Scheduling.Given.Plan(("A", [0, 1]), ("B", [2, 3])),
            Trays = [.. shop.Trays, shop.Trays[0] with { Id = "B", Root = "B" }],
            Promises =
            [
                new OpenPromise("order 1", SmallShop.Monday.AddDays(2), [Peg("A")]),
                new OpenPromise("order 2", SmallShop.Monday.AddDays(7), [Peg("B")]),
            ],
        };
    }

    [Fact]
    public void What_keeps_a_promise_comes_first()
    {
        var worth = Tonight.Worth(TwoBatches(), 15, TestContext.Current.CancellationToken);

        var only = Assert.Single(worth);
        Assert.Equal(("A", 15, 1.0), (only.Batch, only.Minutes, only.Gain));
        Assert.Equal(("order 1", 0.0, 1.0), only.Gains.Single());
    }

    /// <summary>The plate is there already, so that the second batch takes ten minutes; nobody needs it tonight.</summary>
    [Fact]
    public void What_is_left_of_the_minutes_goes_to_the_next_best()
    {
        var worth = Tonight.Worth(TwoBatches(), 25, TestContext.Current.CancellationToken);

        Assert.Equal([("A", 15), ("B", 10)], worth.Select(next => (next.Batch, next.Minutes)));
        Assert.Equal(0, worth[1].Gain);
    }

    [Fact]
    public void Too_few_minutes_are_worth_nothing_and_the_least_are_told()
    {
        Assert.Empty(Tonight.Worth(TwoBatches(), 14, TestContext.Current.CancellationToken));
        Assert.Equal(15, Tonight.LeastMinutes(TwoBatches()));
    }

    private static PeggedReeds Peg(string root) => new(root, "clarinet", [SmallShop.Three], 10);
}

using MathNet.Numerics.Distributions;
using ReedShop.Planning.Sizing;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class ShelfLevelFacts
{
    [Fact]
    public void Without_an_order_nothing_is_kept() =>
        Assert.Equal(new ShelfLevel(0, 1, 0), ShelfLevel.For(new PastDemand(180, []), 14, 0.9));

    [Theory]
    [InlineData(60, 2, 30, 0.9)]
    [InlineData(180, 40, 14, 0.95)]
    [InlineData(10, 1, 20, 0.5)]
    public void Orders_of_one_blank_follow_the_negative_binomial_law(
        int days,
        int orders,
        int replenishment,
        double service
    )
    {
        // Another library's law, with half an order in thirty days added to what was seen.
        var level = ShelfLevel.For(new PastDemand(days, [.. Enumerable.Repeat(1, orders)]), replenishment, service);
        var law = new NegativeBinomial(0.5 + orders, (30.0 + days) / (30 + days + replenishment));
        Assert.Equal(law.CumulativeDistribution(level.Blanks), level.Chance, 1e-10);
        Assert.True(level.Chance >= service);
        Assert.True(level.Blanks == 0 || law.CumulativeDistribution(level.Blanks - 1) < service);
        Assert.Equal(law.Mean, level.MeanDemand, 1e-10);
    }

    [Fact]
    public void Orders_of_several_sizes_agree_with_draws()
    {
        int[] orders = [4, 4, 10, 12, 25];
        var level = ShelfLevel.For(new PastDemand(90, orders), 15, 0.9);
        const int Draws = 200_000;
        var random = new Random(11);
        var lasted = 0;
        for (var draw = 0; draw < Draws; draw++)
        {
            var rate = Gamma.Sample(random, 0.5 + orders.Length, 30.0 + 90);
            var demand = Enumerable
                .Range(0, Poisson.Sample(random, 15 * rate))
                .Sum(_ => orders[random.Next(orders.Length)]);
            lasted += demand <= level.Blanks ? 1 : 0;
        }

        Assert.Equal(level.Chance, lasted / (double)Draws, 4.5 * Math.Sqrt(level.Chance * (1 - level.Chance) / Draws));
    }

    [Fact]
    public void Three_orders_in_the_first_week_do_not_fill_the_shelf_for_a_rush()
    {
        // Three a week would take 60 blanks in two weeks on the mean.
        var level = ShelfLevel.For(new PastDemand(7, [10, 10, 10]), 14, 0.9);
        Assert.InRange(level.MeanDemand, 10, 20);
        Assert.InRange(level.Blanks, 20, 40);
    }

    [Fact]
    public void A_surer_shelf_holds_more()
    {
        var past = new PastDemand(180, [.. Enumerable.Range(0, 30).Select(i => 4 + (i % 9))]);
        int[] levels =
        [
            .. new[] { 0.5, 0.8, 0.9, 0.95, 0.99 }.Select(service => ShelfLevel.For(past, 14, service).Blanks),
        ];
        Assert.Equal(levels.Order(), levels);
        Assert.True(levels[^1] > levels[0]);
    }
}

using ReedShop.Planning.Routes;
using ReedShop.Planning.Sizing;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class RunWorkFacts
{
    /// <summary>Flatten at two minutes a blank, a night, then profile and clip at one minute each: one set-up a tool.</summary>
    private static readonly ReedRoute Route = new([
        new Leg(
            "finishing",
            false,
            [
                new Step("flatten", new SetUp("glass", 10), 120, new Follow.Dry(1, 12, null), Check.Counted),
                new Step("profile", new SetUp("bench", 5), 60, new Follow.StraightOn(), Check.Counted),
                new Step("clip", new SetUp("bench", 5), 60, new Follow.StraightOn(), Check.Graded),
            ]
        ),
    ]);

    [Fact]
    public void Ten_blanks_take_two_evenings_and_their_set_ups() =>
        Assert.Equal(new RunWork(2, 30 + 25, 30, 1), RunWork.Of(Route, 1, 10, usualMinutes: 60));

    [Fact]
    public void Where_an_evening_is_too_short_the_run_takes_more_of_them() =>
        Assert.Equal(4, RunWork.Of(Route, 1, 40, usualMinutes: 60).Evenings);

    [Fact]
    public void Twenty_five_blanks_are_the_most_whose_flattening_fits_an_evening() =>
        Assert.Equal(25, RunWork.MostAtOnce(Route, 1, usualMinutes: 60, most: 120));

    [Fact]
    public void From_the_second_sitting_on_only_its_work_counts() =>
        Assert.Equal(new RunWork(1, 25, 25, 0), RunWork.Of(Route, 2, 10, usualMinutes: 60));

    [Fact]
    public void A_blank_costs_its_cane_and_its_minutes_and_a_run_its_set_ups()
    {
        var prices = new RunCosts(Blank: 1, BenchHour: 60, LateDay: 7, SurplusWorth: 2).Of(Route, 1);
        Assert.Equal((15, 5, 14), (prices.SetUp, prices.Blank, prices.LateRun));
        Assert.Equal([0, 2, 3.6], new[] { 0, 1, 2 }.Select(prices.Surplus), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.True(prices.Surplus(1000) < 10.0001);
        Assert.True(double.IsPositiveInfinity(prices.GiveUp(1)));
    }
}

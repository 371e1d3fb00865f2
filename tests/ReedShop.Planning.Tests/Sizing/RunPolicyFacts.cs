using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class RunPolicyFacts
{
    [Fact]
    public void Three_runs_for_one_good_piece_cost_what_the_textbook_says()
    {
        // Hillier and Lieberman, Introduction to Operations Research, chapter on dynamic programming, reject allowances;
        // value from memory. Two sizes tie in the second and the third run: either is right.
        var policy = new RunPolicy(Binomial(0.5, 5), OnTimeOr(1600, setUp: 300, blank: 100), runs: 3, missing: 1);
        Assert.Equal(new RunChoice(675, 2), policy[3, 1]);
        Assert.Equal(700, policy[2, 1].Cost, 1e-9);
        Assert.Contains(policy[2, 1].Blanks, new int?[] { 2, 3 });
        Assert.Equal(800, policy[1, 1].Cost, 1e-9);
        Assert.Contains(policy[1, 1].Blanks, new int?[] { 3, 4 });
        Assert.Equal(new RunChoice(1600, null), policy[0, 1]);
    }

    // The whole table of the same example, in hundreds; computed independently. Starting none lets the run pass.
    [Theory]
    [InlineData(1, new[] { 16, 12, 9, 8, 8, 8.5 })]
    [InlineData(2, new[] { 8, 8, 7, 7, 7.5, 8.25 })]
    [InlineData(3, new[] { 7, 7.5, 6.75, 6.875, 7.4375, 8.21875 })]
    public void Every_size_of_every_run_costs_what_the_textbook_table_says(int runs, double[] hundreds)
    {
        var policy = new RunPolicy(Binomial(0.5, 5), OnTimeOr(1600, setUp: 300, blank: 100), runs: 3, missing: 1);
        Assert.Equal(hundreds, Enumerable.Range(0, 6).Select(blanks => policy.CostOf(runs, 1, blanks) / 100));
    }

    [Fact]
    public void No_other_plan_of_runs_costs_less()
    {
        // Every plan there is: a size, or none, for every number of runs left and of reeds missing.
        var good = Binomial(0.6, 4);
        var prices = new RunPrices(
            3,
            1,
            double.PositiveInfinity,
            missing => 7.0 * missing,
            reeds => Math.Min(reeds, 1)
        );
        var policy = new RunPolicy(good, prices, runs: 2, missing: 2);
        (int Runs, int Missing)[] states = [(1, 1), (1, 2), (2, 1), (2, 2)];
        var plans = states.Aggregate<(int, int), IEnumerable<Dictionary<(int, int), int>>>(
            [
                [],
            ],
            (all, state) =>
                all.SelectMany(plan =>
                    Enumerable.Range(0, 5).Select(n => new Dictionary<(int, int), int>(plan) { [state] = n })
                )
        );
        var least = plans.Min(plan => Follow(plan, 2, 2));
        Assert.Equal(least, policy[2, 2].Cost, 1e-12);

        double Follow(Dictionary<(int, int), int> plan, int runs, int missing)
        {
            if (missing <= 0 || runs == 0)
            {
                return missing <= 0 ? -Math.Min(-missing, 1) : 7.0 * missing;
            }

            var blanks = plan[(runs, missing)];
            var outcomes = good[blanks].Select((chance, g) => chance * Follow(plan, runs - 1, missing - g));
            return (blanks > 0 ? 3 + blanks : 0) + outcomes.Sum();
        }
    }

    [Fact]
    public void Two_runs_at_a_better_yield_cost_what_the_exercise_asks()
    {
        // Computed independently, the end-of-chapter variant of the same book.
        var policy = new RunPolicy(Binomial(2 / 3.0, 5), OnTimeOr(1600, setUp: 300, blank: 100), runs: 2, missing: 1);
        Assert.Equal(139300.0 / 243, policy[2, 1].Cost, 1e-9);
        Assert.Equal(2, policy[2, 1].Blanks);
        Assert.Equal(17800.0 / 27, policy[1, 1].Cost, 1e-9);
        Assert.Equal(3, policy[1, 1].Blanks);
    }

    // Computed independently: rigid demand, runs without end (model of Klein, Management Science 12(5), 1966).
    [Theory]
    [InlineData(0.5, 10, 1, 3, 14.857143)]
    [InlineData(0.5, 10, 2, 6, 17.668934)]
    [InlineData(0.5, 10, 3, 8, 20.25628)]
    [InlineData(0.5, 10, 4, 10, 22.737558)]
    [InlineData(0.5, 10, 5, 12, 25.143643)]
    [InlineData(0.5, 10, 6, 15, 27.464074)]
    [InlineData(0.8, 5, 1, 2, 7.291667)]
    [InlineData(0.8, 5, 2, 3, 8.770161)]
    [InlineData(0.8, 5, 3, 4, 10.361094)]
    [InlineData(0.8, 5, 4, 6, 11.74871)]
    [InlineData(0.8, 5, 5, 7, 13.136665)]
    [InlineData(0.8, 5, 6, 8, 14.582406)]
    public void Runs_without_end_cost_what_rigid_demand_costs(
        double share,
        double setUp,
        int missing,
        int blanks,
        double cost
    )
    {
        var prices = new RunPrices(setUp, 1, LateRun: 0, _ => double.PositiveInfinity, _ => 0);
        var policy = new RunPolicy(Binomial(share, 40), prices, runs: 0, missing: 6);
        Assert.Equal(blanks, policy[0, missing].Blanks);
        Assert.Equal(cost, policy[0, missing].Cost, 1e-6);
    }

    [Fact]
    public void A_run_that_would_be_late_is_made_larger()
    {
        var prices = new RunPrices(10, 1, LateRun: 100, _ => double.PositiveInfinity, _ => 0);
        var policy = new RunPolicy(Binomial(0.5, 40), prices, runs: 2, missing: 3);
        Assert.True(policy[1, 3].Blanks > policy[2, 3].Blanks);
        Assert.True(policy[0, 3].Cost > policy[1, 3].Cost);
        Assert.True(policy[1, 3].Cost > policy[2, 3].Cost);
    }

    [Fact]
    public void Reeds_that_will_sell_later_pay_for_a_larger_run()
    {
        var worthless = new RunPrices(10, 1, 0, _ => double.PositiveInfinity, _ => 0);
        var sellable = worthless with { Surplus = reeds => 0.9 * Math.Min(reeds, 8) };
        Assert.True(
            new RunPolicy(Binomial(0.9, 40), sellable, 1, 4)[1, 4].Blanks
                > new RunPolicy(Binomial(0.9, 40), worthless, 1, 4)[1, 4].Blanks
        );
    }

    [Fact]
    public void Where_nothing_survives_the_cheapest_is_to_give_up()
    {
        var policy = new RunPolicy(Binomial(0, 10), OnTimeOr(50, setUp: 10, blank: 1), runs: 2, missing: 3);
        Assert.Equal(new RunChoice(50, null), policy[2, 3]);
    }

    [Fact]
    public void Nothing_missing_costs_nothing() =>
        Assert.Equal(
            new RunChoice(0, null),
            new RunPolicy(Binomial(0.5, 5), OnTimeOr(50, setUp: 10, blank: 1), runs: 1, missing: 1)[1, 0]
        );

    private static RunPrices OnTimeOr(double giveUp, double setUp, double blank) =>
        new(setUp, blank, LateRun: double.PositiveInfinity, _ => giveUp, _ => 0);

    private static double[][] Binomial(double share, int most) =>
        [.. Enumerable.Range(0, most + 1).Select(new BetaBinomial(share, 0).Row)];
}

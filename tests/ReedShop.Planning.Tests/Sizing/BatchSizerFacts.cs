using CsCheck;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class BatchSizerFacts
{
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    // Computed independently: smallest start of a binomial yield.
    [Theory]
    [InlineData(10, 0.8, 0.95, 16, 0.973342668)]
    [InlineData(10, 0.9, 0.95, 13, 0.965839279)]
    [InlineData(20, 0.6, 0.9, 40, 0.925648443)]
    [InlineData(1, 0.5, 0.99, 7, 0.9921875)]
    [InlineData(10, 0.5, 0.9, 26, 0.915681228)]
    public void Smallest_start_when_the_share_is_known(
        int need,
        double share,
        double confidence,
        int blanks,
        double chance
    )
    {
        var chances = Chances(need, 50, StepYield.OfShare(share));
        Assert.Equal(blanks, BatchSizer.Smallest(chances, confidence));
        Assert.Equal(chance, chances[blanks], 1e-9);
    }

    // Computed independently: not knowing the share costs blanks.
    [Theory]
    [InlineData(10, 8, 2, 0.95, 19, 0.957763975)]
    [InlineData(10, 80, 20, 0.95, 16, 0.963056953)]
    [InlineData(10, 800, 200, 0.95, 16, 0.972310418)]
    [InlineData(20, 12, 8, 0.9, 46, 0.908595582)]
    public void Smallest_start_when_the_share_is_uncertain(
        int need,
        double alpha,
        double beta,
        double confidence,
        int blanks,
        double chance
    )
    {
        var chances = Chances(need, 50, StepYield.OfBeta(alpha, beta));
        Assert.Equal(blanks, BatchSizer.Smallest(chances, confidence));
        Assert.Equal(chance, chances[blanks], 1e-8);
    }

    [Fact]
    public void No_start_is_large_enough_for_more_than_can_be_had() =>
        Assert.Null(BatchSizer.Smallest(Chances(10, 12, StepYield.OfShare(0.5)), 0.9));

    [Fact]
    public void Nothing_needed_needs_no_blank() =>
        Assert.Equal(0, BatchSizer.Smallest(Chances(0, 12, StepYield.OfShare(0.5)), 0.9));

    [Fact]
    public void Two_steps_follow_each_other_exactly()
    {
        // Computed independently, in exact rationals.
        StepYield[] steps = [StepYield.OfBeta(9, 1), StepYield.OfBeta(8, 2)];
        Assert.Equal(36677803.0 / 51121210, Chances(8, 12, steps)[12], 1e-13);
        Assert.Equal(8.64, ExpectedGood(12, steps), 1e-13);
    }

    [Fact]
    public void Three_independent_steps_ask_sixteen_blanks_for_eight_reeds()
    {
        // Computed independently, in exact rationals.
        var chances = Chances(8, 20, StepYield.OfBeta(9, 1), StepYield.OfBeta(9, 1), StepYield.OfBeta(9, 1));
        Assert.Equal(425234899109.0 / 577925279050, chances[12], 1e-13);
        Assert.Equal(16, BatchSizer.Smallest(chances, 0.9));
    }

    [Fact]
    public void Three_steps_that_share_their_fate_ask_eighteen_blanks_for_eight_reeds()
    {
        // Computed independently, in exact rationals: three equal chances p from Beta(9,1) are one chance from Beta(3,1).
        var shared = Nodes.OfBeta(9, 1);
        var yields = YieldEstimate.Of(
            new Dictionary<string, StepYield>
            {
                ["flatten"] = shared,
                ["profile"] = shared,
                ["clip"] = shared,
            }
        );
        var chances = Chances(yields, ["flatten", "profile", "clip"], 8, 20);
        Assert.Equal(67.0 / 91, chances[12], 1e-12);
        Assert.Equal(18, BatchSizer.Smallest(chances, 0.9));
    }

    [Fact]
    public void Two_batches_of_one_lot_are_short_together_more_often_than_by_chance()
    {
        // Computed independently, in exact rationals: 14 blanks, need 8, chance from Beta(3,1).
        var yields = YieldEstimate.Of(new Dictionary<string, StepYield> { ["flatten"] = Nodes.OfBeta(3, 1) });
        var byNode = BatchSizer.ChancesByNode(yields, ["flatten"], null, GradeNeed.Of(ThreeAndAHalf, 8), 14);
        var oneShort = yields.NodeWeights.Select((weight, node) => weight * (1 - byNode[node][14])).Sum();
        var bothShort = yields.NodeWeights.Select((weight, node) => weight * Math.Pow(1 - byNode[node][14], 2)).Sum();
        Assert.Equal(3 / 17.0, oneShort, 1e-12);
        Assert.Equal(19015286.0 / 166966775, bothShort, 1e-12);
        Assert.True(bothShort > 3 * oneShort * oneShort);
    }

    [Fact]
    public void The_alarm_line_is_the_chance_of_what_is_left_of_the_route()
    {
        var yields = Estimate(StepYield.OfBeta(9, 1), StepYield.OfBeta(8, 2));
        var byStep = BatchSizer.ChancesByStep(yields, ["step 0", "step 1"], null, GradeNeed.Of(ThreeAndAHalf, 8), 12);
        Assert.Equal(3, byStep.Length);
        Assert.Equal(Chances(8, 12, StepYield.OfBeta(8, 2)), byStep[1]);
        Assert.Equal([0, 1], byStep[2][7..9]);
    }

    [Fact]
    public void Good_reeds_are_those_that_survive_and_land_in_an_accepted_strength()
    {
        // Computed independently: 2 blanks, survive 1/2, land 3/5, so each is good with 3/10.
        var yields = Estimate(StepYield.OfShare(0.5));
        var mix = GradeMix.Of([(1, new Dictionary<Strength, double> { [ThreeAndAHalf] = 0.6 })]);
        var good = BatchSizer.GoodReeds(yields, ["step 0"], mix, new HashSet<Strength> { ThreeAndAHalf }, 2);
        Assert.Equal(0.49, good[2][0], 1e-14);
        Assert.Equal(0.42, good[2][1], 1e-14);
        Assert.Equal(0.09, good[2][2], 1e-14);
        Assert.Equal(0.3, good[1][1], 1e-14);
        Assert.Equal(1, Assert.Single(good[0]), 1e-14);
    }

    [Fact]
    public void Counting_forward_and_walking_backward_agree() =>
        SomeSteps.Sample(
            steps =>
            {
                var names = steps.Select((_, i) => $"step {i}").ToArray();
                var good = BatchSizer.GoodReeds(Estimate(steps), names, null, new HashSet<Strength>(), 30);
                var chances = Chances(5, 30, steps);
                Assert.All(chances, (chance, n) => Assert.Equal(chance, good[n].Skip(5).Sum(), 1e-11));
            },
            seed: "000000000001",
            iter: 200
        );

    [Fact]
    public void More_blanks_never_lower_the_chance() =>
        Gen.Select(SomeSteps, Gen.Int[0, 12], Gen.Double[0.05, 1])
            .Sample(
                (steps, need, share) =>
                {
                    var names = steps.Select((_, i) => $"step {i}").ToArray();
                    var mix = GradeMix.Of([(1, new Dictionary<Strength, double> { [ThreeAndAHalf] = share })]);
                    var chances = BatchSizer.Chances(
                        Estimate(steps),
                        names,
                        mix,
                        GradeNeed.Of(ThreeAndAHalf, need),
                        40
                    );
                    return chances.Zip(chances.Skip(1)).All(pair => pair.Second >= pair.First - 1e-12)
                        && chances.All(chance => chance is >= 0 and <= 1);
                },
                seed: "000000000002",
                iter: 300
            );

    [Fact]
    public void Needing_more_never_raises_the_chance() =>
        Gen.Select(SomeSteps, Gen.Int[0, 12])
            .Sample(
                (steps, need) =>
                    Chances(need, 30, steps).Zip(Chances(need + 1, 30, steps)).All(pair => pair.First >= pair.Second),
                seed: "000000000003",
                iter: 300
            );

    private static readonly Gen<StepYield[]> SomeSteps = Gen.Select(Gen.Double[0.3, 40], Gen.Double[0.3, 10])
        .Select(StepYield.OfBeta)
        .Array[1, 5];

    private static double[] Chances(int need, int most, params StepYield[] steps) =>
        Chances(Estimate(steps), [.. steps.Select((_, i) => $"step {i}")], need, most);

    private static double[] Chances(YieldEstimate yields, string[] steps, int need, int most) =>
        BatchSizer.Chances(yields, steps, null, GradeNeed.Of(ThreeAndAHalf, need), most);

    private static double ExpectedGood(int blanks, StepYield[] steps) =>
        BatchSizer.ExpectedGood(
            Estimate(steps),
            [.. steps.Select((_, i) => $"step {i}")],
            null,
            GradeNeed.Of(ThreeAndAHalf, 1),
            blanks
        );

    private static YieldEstimate Estimate(params StepYield[] steps) =>
        YieldEstimate.Of(
            steps.Select((step, i) => (Name: $"step {i}", step)).ToDictionary(pair => pair.Name, pair => pair.step)
        );
}

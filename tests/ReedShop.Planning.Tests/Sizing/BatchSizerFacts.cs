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
    public void Two_steps_follow_each_other_exactly() =>
        // Computed independently, in exact rationals.
        Assert.Equal(36677803.0 / 51121210, Chances(8, 12, StepYield.OfBeta(9, 1), StepYield.OfBeta(8, 2))[12], 1e-9);

    [Fact]
    public void Three_steps_follow_each_other() =>
        // Computed independently.
        Assert.Equal(
            0.735796,
            Chances(8, 12, StepYield.OfBeta(9, 1), StepYield.OfBeta(9, 1), StepYield.OfBeta(9, 1))[12],
            5e-7
        );

    [Fact]
    public void Seventeen_of_twenty_seen_make_ten_of_fourteen_less_than_certain()
    {
        // Computed independently: uniform prior, then plugged in.
        Assert.Equal(52383.0 / 61132, Chances(10, 14, StepYield.OfBeta(18, 4))[14], 1e-12);
        Assert.Equal(0.953260, Chances(10, 14, StepYield.OfShare(0.85))[14], 5e-7);
    }

    private static double[] Chances(int need, int most, params StepYield[] steps)
    {
        var named = steps.Select((step, i) => (Name: $"step {i}", Step: step)).ToArray();
        var yields = YieldEstimate.Of(named.ToDictionary(pair => pair.Name, pair => pair.Step));
        return BatchSizer.Chances(
            yields,
            [.. named.Select(pair => pair.Name)],
            null,
            GradeNeed.Of(ThreeAndAHalf, need),
            most
        );
    }
}

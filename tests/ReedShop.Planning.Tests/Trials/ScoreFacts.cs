using ReedShop.Lab.Trials;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

public sealed class ScoreFacts
{
    /// <summary>The example of the scikit-learn documentation; value from memory, and by hand.</summary>
    [Fact]
    public void Brier_is_the_mean_square_of_what_the_chances_missed() =>
        Assert.Equal(0.0375, Scores.Brier([(0.1, false), (0.9, true), (0.8, true), (0.3, false)]), 12);

    [Fact]
    public void A_day_late_costs_nine_times_a_day_early_where_nine_in_ten_were_asked()
    {
        Assert.Equal(0.9, Scores.Pinball(stated: 10, actual: 11, level: 0.9), 12);
        Assert.Equal(0.1, Scores.Pinball(stated: 11, actual: 10, level: 0.9), 12);
        Assert.Equal(0, Scores.Pinball(stated: 10, actual: 10, level: 0.9), 12);
    }

    [Fact]
    public void True_chances_give_an_even_transform_and_chances_too_high_one_that_leans_low()
    {
        Assert.All(Bins(stated: 0.7), share => Assert.Equal(0.1, share, 0.006));
        Assert.True(Bins(stated: 0.9)[0] > 0.2);
    }

    [Fact]
    public void The_interval_of_shops_that_all_kept_a_tenth_less_is_that_tenth()
    {
        TrialPromise[] shop = [.. Enumerable.Range(0, 10).Select(number => Promised(0.9, isKept: number < 8))];
        var (low, high) = Bootstrap.OfDifference([shop, shop, shop], seed: 1);
        Assert.Equal(-0.1, low, 9);
        Assert.Equal(-0.1, high, 9);
    }

    [Fact]
    public void Shops_that_differ_widen_the_interval_as_whole_shops_do()
    {
        TrialPromise[] good = [.. Enumerable.Repeat(Promised(0.5, isKept: true), 50)];
        TrialPromise[] bad = [.. Enumerable.Repeat(Promised(0.5, isKept: false), 50)];
        // Of two shops drawn from two, a quarter are both bad and a quarter both good.
        Assert.Equal((-0.5, 0.5), Bootstrap.OfDifference([good, bad], seed: 1));
    }

    private static double[] Bins(double stated)
    {
        const double truth = 0.7;
        return Scores.Bins([
            .. Enumerable
                .Range(0, 50_000)
                .Select(number => Draws.At(3, What.Pit, (ulong)number))
                .Select(dice => Scores.Pit(stated, dice.Happens(truth), dice.FirstBetween(0, 1))),
        ]);
    }

    private static TrialPromise Promised(double chance, bool isKept) =>
        new(0, 0.9, chance, isKept, 10, 10, 0, 0.5, CameUpShort: false, IsFromDrawer: false);
}

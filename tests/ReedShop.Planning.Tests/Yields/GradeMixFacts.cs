using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class GradeMixFacts
{
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly Strength ThreeAndAQuarter = Strength.OfQuarters(13);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);
    private static readonly Strength ThreeAndThreeQuarters = Strength.OfQuarters(15);

    [Fact]
    public void Without_a_history_reeds_land_around_the_aim_and_widely()
    {
        var mix = Mix([]);
        Assert.Equal(0, mix.Batches);
        Assert.Equal(Share(mix, ThreeAndAQuarter), Share(mix, ThreeAndThreeQuarters), 1e-6);
        Assert.True(Share(mix, ThreeAndAHalf) > Share(mix, ThreeAndAQuarter));
        Assert.InRange(Share(mix, ThreeAndAHalf), 0.1, 0.35);
        Assert.Equal(1, mix.Shares.Sum(row => row.Share), 1e-12);
    }

    [Fact]
    public void A_model_that_comes_out_a_quarter_soft_is_expected_to_do_so_again()
    {
        var mix = Mix(Batches(30, (Three, 4), (ThreeAndAQuarter, 7), (ThreeAndAHalf, 4)));
        Assert.True(Share(mix, ThreeAndAQuarter) > Share(mix, ThreeAndAHalf) + 0.1);
        Assert.Equal(Share(mix, Three), Share(mix, ThreeAndAHalf), 0.02);
        Assert.Equal((30, 450), (mix.Batches, mix.Reeds));
    }

    [Fact]
    public void A_bias_learned_at_one_aim_holds_at_another()
    {
        var estimates = Estimate(Batches(30, (Three, 4), (ThreeAndAQuarter, 7), (ThreeAndAHalf, 4)));
        var three = estimates.For("clarinet", null).Grades(Three);
        Assert.True(Share(three, Strength.OfQuarters(11)) > Share(three, Three) + 0.1);
    }

    [Fact]
    public void Thirty_batches_of_one_strength_come_close_to_a_promise()
    {
        var mix = Mix(Batches(30, (ThreeAndAHalf, 15)));
        Assert.InRange(Share(mix, ThreeAndAHalf), 0.6, 0.99);
    }

    [Fact]
    public void One_batch_of_one_strength_does_not()
    {
        var mix = Mix(Batches(1, (ThreeAndAHalf, 15)));
        Assert.InRange(Share(mix, ThreeAndAHalf), 0.3, 0.6);
    }

    [Fact]
    public void Batches_that_come_out_soft_or_hard_as_a_whole_are_told_from_reeds_that_scatter()
    {
        // Both histories have a third of all reeds in each strength.
        var shifting = Mix([
            .. Batches(10, (Three, 15)),
            .. Batches(10, (ThreeAndAHalf, 15)),
            .. Batches(10, (Strength.OfQuarters(16), 15)),
        ]);
        var scattering = Mix(Batches(30, (Three, 5), (ThreeAndAHalf, 5), (Strength.OfQuarters(16), 5)));
        Assert.True(SpreadOfShare(shifting) > 2 * SpreadOfShare(scattering));
    }

    [Fact]
    public void Cane_that_comes_out_hard_is_expected_to_do_so_again()
    {
        BatchGrades[] history =
        [
            .. Batches(6, (ThreeAndAHalf, 15)).Select(batch => batch with { CaneLot = "L1" }),
            .. Batches(6, (Strength.OfQuarters(16), 15)).Select(batch => batch with { CaneLot = "L2" }),
        ];
        var estimates = Estimate(history);
        var ordinary = Mean(estimates.For("clarinet", "L1").Grades(ThreeAndAHalf));
        var unknown = Mean(estimates.For("clarinet", null).Grades(ThreeAndAHalf));
        var hard = Mean(estimates.For("clarinet", "L2").Grades(ThreeAndAHalf));
        Assert.True(ordinary + 0.1 < unknown);
        Assert.True(unknown + 0.1 < hard);
    }

    [Fact]
    public void A_shop_that_sorts_in_half_steps_gets_no_quarters()
    {
        var history = new YieldHistory([], Batches(10, (Three, 5), (ThreeAndAHalf, 10)));
        var settings = new YieldSettings { QuartersBetweenGrades = 2 };
        var mix = YieldEstimates.From(history, Today, settings).For("clarinet", null).Grades(ThreeAndAHalf);
        Assert.True(Share(mix, ThreeAndAQuarter) < 0.001);
        Assert.True(Share(mix, ThreeAndAHalf) > 0.4);
    }

    [Fact]
    public void One_reed_written_down_far_off_hardly_moves_the_estimate()
    {
        var plain = Mix(Batches(10, (ThreeAndAHalf, 15)));
        var slipped = Mix([
            .. Batches(9, (ThreeAndAHalf, 15)),
            .. Batches(1, (ThreeAndAHalf, 14), (Strength.OfQuarters(24), 1)),
        ]);
        Assert.Equal(Share(plain, ThreeAndAHalf), Share(slipped, ThreeAndAHalf), 0.05);
    }

    [Fact]
    public void Batches_at_both_ends_of_the_scale_still_make_an_estimate()
    {
        var mix = Mix([.. Batches(5, (Strength.OfQuarters(4), 15)), .. Batches(5, (Strength.OfQuarters(24), 15))]);
        Assert.Equal(1, mix.Shares.Sum(row => row.Share), 1e-12);
        Assert.All(mix.Shares, row => Assert.InRange(row.Share, 0, 1));
    }

    [Fact]
    public void At_the_end_of_the_scale_reeds_that_would_be_harder_count_as_the_hardest()
    {
        var mix = Estimate([]).For("clarinet", null).Grades(Strength.OfQuarters(24));
        Assert.True(Share(mix, Strength.OfQuarters(24)) > 0.5);
        Assert.Equal(1, mix.Shares.Sum(row => row.Share), 1e-12);
    }

    private static double SpreadOfShare(GradeMix mix)
    {
        var mean = Share(mix, ThreeAndAHalf);
        return mix.Nodes.Sum(node => node.Weight * Math.Pow(node.Share(ThreeAndAHalf) - mean, 2));
    }

    private static double Mean(GradeMix mix) => mix.Shares.Sum(row => row.Share * row.Strength.Quarters);

    private static double Share(GradeMix mix, Strength strength) => mix.Share(new HashSet<Strength> { strength });

    private static GradeMix Mix(BatchGrades[] history) => Estimate(history).For("clarinet", null).Grades(ThreeAndAHalf);

    private static YieldEstimates Estimate(BatchGrades[] history) =>
        YieldEstimates.From(new YieldHistory([], history), Today, YieldSettings.Default);

    private static BatchGrades[] Batches(int batches, params (Strength Strength, int Count)[] counts) =>
        [
            .. Enumerable
                .Range(1, batches)
                .Select(i => new BatchGrades(
                    $"{counts[0].Strength} {i}",
                    "clarinet",
                    null,
                    Today,
                    ThreeAndAHalf,
                    counts.ToDictionary(pair => pair.Strength, pair => pair.Count)
                )),
        ];
}

using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class UsualRangeFacts
{
    private static readonly DateOnly First = new(2027, 3, 1);

    /// <summary>NIST/SEMATECH e-Handbook 6.3.3.2, 30 wafers of 50 chips: limits from memory, and computed.</summary>
    [Fact]
    public void Limits_of_a_proportion_are_those_of_the_handbook()
    {
        var (low, high) = UsualRange.Limits(0.2313, 50);

        Assert.Equal(0.0524, low, 5e-5);
        Assert.Equal(0.4102, high, 5e-5);
    }

    /// <summary>NIST/SEMATECH e-Handbook 6.3.2.2, flow rates: mean 50.81, limits 45.8159 and 55.8041, values from memory.</summary>
    [Fact]
    public void Deviation_of_single_values_is_that_of_the_handbook()
    {
        double[] flow = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

        var deviation = UsualRange.DeviationOf(flow);

        Assert.Equal(50.81, flow.Average(), 5e-5);
        Assert.Equal(55.8041, flow.Average() + (3 * deviation), 5e-4);
        Assert.Equal(45.8159, flow.Average() - (3 * deviation), 5e-4);
    }

    [Fact]
    public void A_batch_far_below_the_others_lies_outside()
    {
        var range = Assert.Single(UsualRange.Of(History(9, 8, 9, 10, 9, 8, 9, 9, 10, 2)));

        Assert.Equal(0.83, range.Mean, 0.001);
        Assert.Equal(["B10"], range.Points.Where(point => point.IsOutside).Select(point => point.Count.Batch));
    }

    /// <summary>Batches that swing between 4 and 10 of ten differ more than ten blanks by themselves would.</summary>
    [Fact]
    public void Limits_are_wider_where_batches_differ_much()
    {
        var range = Assert.Single(UsualRange.Of(History(10, 4, 10, 5, 10, 4, 10, 5)));

        Assert.True(range.Points[0].Low < UsualRange.Limits(range.Mean, 10).Low);
        Assert.DoesNotContain(range.Points, point => point.IsOutside);
    }

    [Fact]
    public void Too_few_batches_have_no_usual_range_and_a_marker_begins_anew()
    {
        var enough = History(9, 8, 9, 10, 9, 8, 9, 9, 10);
        var marked = enough with { Markers = [new YieldMarker(First.AddDays(14), "clarinet")] };

        Assert.Empty(UsualRange.Of(History(9, 8, 9, 10, 9, 8, 9)));
        Assert.Single(UsualRange.Of(enough));
        Assert.Empty(UsualRange.Of(marked));
    }

    [Fact]
    public void Where_every_blank_was_kept_the_range_is_all_of_them()
    {
        var range = Assert.Single(UsualRange.Of(History(10, 10, 10, 10, 10, 10, 10, 10)));

        Assert.All(range.Points, point => Assert.Equal((1, 1, false), (point.Low, point.High, point.IsOutside)));
    }

    /// <summary>Batches of ten blanks, a week apart.</summary>
    private static YieldHistory History(params int[] kept) =>
        new(
            [
                .. kept.Select(
                    (count, n) =>
                        new StepCount(
                            $"B{n + 1:00}",
                            "clarinet",
                            "north",
                            First.AddDays(7 * n),
                            "flatten",
                            10,
                            count,
                            0
                        )
                ),
            ],
            []
        );
}

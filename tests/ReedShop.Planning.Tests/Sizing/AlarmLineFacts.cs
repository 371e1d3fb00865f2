using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class AlarmLineFacts
{
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void At_each_step_stands_the_least_number_that_is_still_enough()
    {
        // Computed independently: of the last step alone (share 1/2), 8 or more blanks keep 2 with 0.9 or more
        // (8: 1 - 9/256 = 0.965; 7: 1 - 8/128 = 0.9375; 6: 1 - 7/64 = 0.891); before both steps (share 1/4)
        // 14 do (14: 0.899; 15: 0.920), so that 15 must come.
        var lines = Lines(started: 16, new PeggedNeed(GradeNeed.Of(ThreeAndAHalf, 2), 0.9));
        Assert.Equal([new AlarmLine("profile", 15), new AlarmLine("clip", 7)], lines);
    }

    [Fact]
    public void An_order_promised_later_needs_what_the_earlier_ones_need_too()
    {
        var one = new PeggedNeed(GradeNeed.Of(ThreeAndAHalf, 2), 0.9);
        var both = new PeggedNeed(GradeNeed.Of(ThreeAndAHalf, 3), 0.5);
        Assert.Equal(15, Lines(16, one, both)[0].Blanks);
        Assert.Equal(7, Lines(16, one, both)[1].Blanks);
        Assert.Equal(8, Lines(16, both with { Cover = 0.85 }, one)[1].Blanks);
    }

    [Fact]
    public void A_batch_is_held_to_no_more_than_it_had_when_it_was_started()
    {
        // Ten blanks never gave 0.9: the first line is all of them, the later ones tell of blanks lost.
        var lines = Lines(10, new PeggedNeed(GradeNeed.Of(ThreeAndAHalf, 2), 0.9));
        Assert.Equal(10, lines[0].Blanks);
        Assert.Equal(5, lines[1].Blanks);
    }

    [Fact]
    public void A_batch_that_nobody_waits_for_has_no_alarm() =>
        Assert.All(Lines(10), line => Assert.Equal(0, line.Blanks));

    private static IReadOnlyList<AlarmLine> Lines(int started, params PeggedNeed[] pegged) =>
        AlarmLines.Of(
            YieldEstimate.Of(
                new Dictionary<string, StepYield>
                {
                    ["profile"] = StepYield.OfShare(0.5),
                    ["clip"] = StepYield.OfShare(0.5),
                }
            ),
            ["profile", "clip"],
            null,
            started,
            pegged
        );
}

using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class YieldEstimatesFacts
{
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void Without_a_history_the_estimate_says_that_it_knows_little()
    {
        var step = Estimate([]).For("clarinet", null).Step("flatten");
        Assert.InRange(step.Mean, 0.7, 0.85);
        Assert.InRange(step.Low, 0.2, 0.5);
        Assert.InRange(step.High, 0.97, 1);
        Assert.Equal((0, 0, 0), (step.Batches, step.Blanks, step.OtherBatches));
    }

    [Fact]
    public void One_batch_that_lost_nothing_does_not_promise_that_none_will()
    {
        var step = Estimate(Batches(1, 20, 20)).For("clarinet", "L1").Step("flatten");
        Assert.InRange(step.Mean, 0.88, 0.97);
        Assert.True(step.Low < 0.85);
        Assert.Equal((1, 20), (step.Batches, step.Blanks));
    }

    [Fact]
    public void Fifty_batches_that_lost_nothing_come_close_to_a_promise()
    {
        var step = Estimate(Batches(50, 20, 20)).For("clarinet", "L1").Step("flatten");
        Assert.InRange(step.Mean, 0.99, 0.9999);
        Assert.True(step.Low > 0.98);
    }

    [Fact]
    public void A_batch_that_lost_everything_leaves_hope()
    {
        var step = Estimate(Batches(1, 20, 0)).For("clarinet", "L1").Step("flatten");
        Assert.InRange(step.Mean, 0.05, 0.5);
        Assert.True(step.High > 0.3);
    }

    [Fact]
    public void Much_history_outweighs_the_prior()
    {
        var step = Estimate(Batches(60, 20, 12)).For("clarinet", "L1").Step("flatten");
        Assert.Equal(0.6, step.Mean, 0.01);
        Assert.InRange(step.Low, 0.45, 0.59);
        Assert.InRange(step.High, 0.61, 0.75);
    }

    [Fact]
    public void Batches_that_differ_much_leave_a_wider_range_than_batches_that_agree()
    {
        var agree = Estimate(Batches(12, 20, 14)).For("clarinet", "L1").Step("flatten");
        var differ = Estimate([.. Batches(6, 20, 20), .. Batches(6, 20, 8)]).For("clarinet", "L1").Step("flatten");
        Assert.True(differ.High - differ.Low > 1.5 * (agree.High - agree.Low));
    }

    [Fact]
    public void A_model_seen_once_is_shrunk_toward_the_others()
    {
        StepCount[] rows = [.. Batches(20, 20, 19), .. Batches(1, 20, 10, model: "saxophone")];
        var estimates = Estimate(rows);
        var saxophone = estimates.For("saxophone", "L1").Step("flatten");
        Assert.InRange(saxophone.Mean, 0.55, 0.9);
        Assert.Equal((1, 20, 20), (saxophone.Batches, saxophone.Blanks, saxophone.OtherBatches));
        Assert.True(estimates.For("clarinet", "L1").Step("flatten").Mean > 0.93);
    }

    [Fact]
    public void A_model_never_made_borrows_from_the_others_and_says_less()
    {
        var estimates = Estimate(Batches(20, 20, 18));
        var known = estimates.For("clarinet", null).Step("flatten");
        var never = estimates.For("bassoon", null).Step("flatten");
        Assert.Equal(known.Mean, never.Mean, 0.03);
        Assert.True(never.High - never.Low > known.High - known.Low);
    }

    [Fact]
    public void A_step_never_walked_is_believed_to_be_like_the_other_steps()
    {
        var kind = Estimate(Batches(20, 20, 19)).For("clarinet", null).Step("clip");
        var harsh = Estimate(Batches(20, 20, 12)).For("clarinet", null).Step("clip");
        Assert.True(kind.Mean > 0.85);
        Assert.True(harsh.Mean < 0.7);
        Assert.True(kind.High - kind.Low > 0.2);
    }

    [Fact]
    public void Good_cane_is_kind_to_steps_it_has_not_reached()
    {
        var estimates = Estimate(GoodAndPoorCane());
        var good = estimates.For("clarinet", "good").Step("clip");
        var unknown = estimates.For("clarinet", "new").Step("clip");
        var poor = estimates.For("clarinet", "poor").Step("clip");
        Assert.True(good.Mean > unknown.Mean + 0.01);
        Assert.True(unknown.Mean > poor.Mean + 0.01);
    }

    [Fact]
    public void A_lot_that_nothing_is_known_of_is_the_same_as_no_lot()
    {
        var estimates = Estimate(GoodAndPoorCane());
        var unknown = estimates.For("clarinet", "new");
        var none = estimates.For("clarinet", null);
        Assert.Equal(none.Step("flatten").Survivors(20), unknown.Step("flatten").Survivors(20));
        Assert.True(unknown.NodeWeights.Count > estimates.For("clarinet", "good").NodeWeights.Count);
    }

    [Fact]
    public void Steps_of_one_lot_share_its_fate()
    {
        // The chance that both steps keep all twenty is more than the product of the two.
        var yields = Estimate(GoodAndPoorCane()).For("clarinet", null);
        var both = BatchSizer.Chances(yields, ["flatten", "profile"], null, GradeNeed.Of(ThreeAndAHalf, 20), 20)[20];
        var apart = yields.Step("flatten").Survivors(20)[20] * yields.Step("profile").Survivors(20)[20];
        Assert.True(both > 1.02 * apart);
    }

    [Fact]
    public void Old_batches_weigh_less()
    {
        StepCount[] rows = [.. Batches(10, 20, 10, day: Today.AddDays(-1000)), .. Batches(10, 20, 19)];
        var forgetful = YieldEstimates.From(new(rows, []), Today, new YieldSettings { HalfLifeDays = 100 });
        var faithful = YieldEstimates.From(new(rows, []), Today, new YieldSettings { HalfLifeDays = 100_000 });
        Assert.True(forgetful.For("clarinet", null).Step("flatten").Mean > 0.9);
        Assert.True(faithful.For("clarinet", null).Step("flatten").Mean < 0.8);
    }

    [Fact]
    public void A_batch_of_tomorrow_weighs_as_one_of_today() =>
        Assert.Equal(
            Estimate(Batches(3, 20, 15)).For("clarinet", null).Step("flatten").Mean,
            Estimate(Batches(3, 20, 15, day: Today.AddDays(1))).For("clarinet", null).Step("flatten").Mean
        );

    [Fact]
    public void A_half_life_of_nothing_is_refused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new YieldSettings { HalfLifeDays = 0 });

    [Fact]
    public void A_step_that_no_blank_reached_says_nothing() =>
        Assert.Equal(
            Estimate([]).For("clarinet", "L1").Step("flatten").Survivors(20),
            Estimate(Batches(1, 0, 0)).For("clarinet", "L1").Step("flatten").Survivors(20)
        );

    [Fact]
    public void A_batch_taken_over_half_way_says_nothing_of_a_step_it_was_not_seen_to_start() =>
        Assert.Equal(
            Estimate([]).For("clarinet", "L1").Step("flatten").Survivors(20),
            Estimate(Batches(1, 3, 5)).For("clarinet", "L1").Step("flatten").Survivors(20)
        );

    [Fact]
    public void Names_of_steps_are_read_as_people_write_them() =>
        Assert.Equal(5, Estimate(Batches(5, 20, 18)).For("clarinet", "L1").Step("Flatten").Batches);

    [Fact]
    public void Half_of_the_blanks_worked_again_is_expected_of_the_next_batch_too()
    {
        var rows = Batches(30, 20, 18).Select(row => row with { Redo = 10 }).ToArray();
        Assert.Equal(0.5, Estimate(rows).For("clarinet", null).Step("flatten").RedoChance, 0.02);
        Assert.Equal(0.1, Estimate([]).For("clarinet", null).Step("flatten").RedoChance, 1e-12);
    }

    [Fact]
    public void The_usual_range_of_survivors_leaves_out_one_batch_in_twenty_at_each_end()
    {
        var step = StepYield.OfShare(0.5);
        // Computed independently: 4 blanks leave 0 with 1/16, more than 1 in 20; 5 blanks with 1/32.
        Assert.Equal((0, 4), step.Usual(4));
        Assert.Equal((1, 4), step.Usual(5));
    }

    [Fact]
    public void The_order_of_the_rows_does_not_matter()
    {
        var rows = GoodAndPoorCane();
        var forward = Estimate(rows).For("clarinet", "good").Step("flatten").Survivors(20);
        var backward = Estimate([.. rows.Reverse()]).For("clarinet", "good").Step("flatten").Survivors(20);
        Assert.All(forward, (chance, k) => Assert.Equal(chance, backward[k], 1e-10));
    }

    [Fact]
    public void The_same_history_gives_the_same_answer_to_the_last_digit() =>
        Assert.Equal(
            Estimate(GoodAndPoorCane()).For("clarinet", "good").Step("flatten").Survivors(20),
            Estimate(GoodAndPoorCane()).For("clarinet", "good").Step("flatten").Survivors(20)
        );

    [Fact]
    public void Steps_that_do_not_share_their_nodes_make_no_estimate()
    {
        var two = new StepYield([0.5, 0.5], [StepYield.OfShare(0.8).Nodes[0], StepYield.OfShare(0.9).Nodes[0]]);
        Assert.Throws<ArgumentException>(() =>
            YieldEstimate.Of(new Dictionary<string, StepYield> { ["a"] = two, ["b"] = StepYield.OfShare(0.8) })
        );
    }

    private static StepCount[] GoodAndPoorCane() =>
        [
            .. Batches(8, 20, 19, lot: "good"),
            .. Batches(8, 20, 19, lot: "good", step: "profile"),
            .. Batches(8, 20, 15, lot: "poor"),
            .. Batches(8, 20, 15, lot: "poor", step: "profile"),
        ];

    private static StepCount[] Batches(
        int batches,
        int blanksIn,
        int blanksOut,
        string model = "clarinet",
        string lot = "L1",
        string step = "flatten",
        DateOnly? day = null
    ) =>
        [
            .. Enumerable
                .Range(1, batches)
                .Select(i => new StepCount(
                    $"{model} {lot} {i}",
                    model,
                    lot,
                    day ?? Today,
                    step,
                    blanksIn,
                    blanksOut,
                    0
                )),
        ];

    private static YieldEstimates Estimate(StepCount[] rows) =>
        YieldEstimates.From(new YieldHistory(rows, []), Today, YieldSettings.Default);
}

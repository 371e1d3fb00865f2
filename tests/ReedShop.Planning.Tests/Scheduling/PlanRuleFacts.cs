using ReedShop.Planning.Bench;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class PlanRuleFacts
{
    private static readonly WorkBatch TwoSittings = Batch("A", 5, Sitting(40, nights: 2, most: 3), Sitting(30));

    private static PlanBreach[] Breaches(Workload work, params (string, int[])[] days) =>
        [.. PlanRules.Check(work, Plan(days))];

    private static void OnlyBreaks(PlanRule rule, Workload work, params (string, int[])[] days)
    {
        var breach = Assert.Single(Breaches(work, days));
        Assert.Equal(rule, breach.Rule);
    }

    [Fact]
    public void A_plan_that_keeps_every_rule_has_no_breach() =>
        Assert.Empty(Breaches(Evenings(6, 60, TwoSittings), ("A", [0, 2])));

    [Fact]
    public void A_batch_without_days_is_a_breach() =>
        OnlyBreaks(PlanRule.EveryBatchPlanned, Evenings(6, 60, TwoSittings));

    [Fact]
    public void Every_sitting_has_one_day() =>
        OnlyBreaks(PlanRule.OneDayPerSitting, Evenings(6, 60, TwoSittings), ("A", [0, 2, 4]));

    [Theory]
    [InlineData(-1)]
    [InlineData(6)]
    public void No_sitting_lies_outside_the_days_of_the_workload(int day) =>
        OnlyBreaks(
            PlanRule.WithinHorizon,
            Evenings(6, 60, Batch("A", 5, Sitting(40)) with { ReleaseDay = -3 }),
            ("A", [day])
        );

    [Fact]
    public void No_sitting_comes_before_its_cane_is_there() =>
        OnlyBreaks(PlanRule.NotBeforeRelease, Evenings(6, 60, TwoSittings with { ReleaseDay = 1 }), ("A", [0, 2]));

    [Fact]
    public void Blanks_on_the_rack_do_not_wait_longer_than_the_most_nights_of_the_sitting_already_done() =>
        OnlyBreaks(PlanRule.NotAfterLatestStart, Evenings(6, 60, TwoSittings with { LatestStart = 1 }), ("A", [2, 4]));

    [Fact]
    public void Blanks_dry_their_least_nights() =>
        OnlyBreaks(PlanRule.LeastNights, Evenings(6, 60, TwoSittings), ("A", [0, 1]));

    [Fact]
    public void Two_sittings_of_a_batch_never_share_a_day() =>
        OnlyBreaks(PlanRule.LeastNights, Evenings(6, 90, Batch("A", 5, Sitting(40), Sitting(30))), ("A", [0, 0]));

    [Fact]
    public void Blanks_do_not_lie_longer_than_their_most_nights() =>
        OnlyBreaks(PlanRule.MostNights, Evenings(6, 60, TwoSittings), ("A", [0, 4]));

    [Fact]
    public void The_day_the_maker_chose_is_kept() =>
        OnlyBreaks(
            PlanRule.PinnedDayKept,
            Evenings(6, 60, Batch("A", 5, new WorkSitting(40, [], 0, PinnedDay: 3))),
            ("A", [2])
        );

    [Fact]
    public void The_hours_of_a_rest_pass_before_the_next_sitting()
    {
        var evening = new DaySpan(18 * 60, 22 * 60);
        var morning = new DaySpan(8 * 60, 12 * 60);
        var rested = new WorkSitting(40, [], 1, LeastHours: 12);
        var work = Evenings(3, 60, Batch("A", 5, rested, Sitting(30))) with { Spans = [evening, morning, morning] };

        OnlyBreaks(PlanRule.LeastHours, work, ("A", [0, 1]));
        Assert.Empty(PlanRules.Check(work, Plan(("A", [0, 2]))));
    }

    [Fact]
    public void A_day_sees_no_more_blanks_of_tiring_work_than_it_may_whichever_batches_they_are_of()
    {
        var playing = new WorkSitting(10, [], 0, Tiring: new TiringWork("play in", 8));
        var work = Evenings(3, 60, Batch("A", 5, playing), Batch("B", 5, playing)) with
        {
            MostBlanks = new Dictionary<string, int> { ["play in"] = 12 },
            DoneToday = new Dictionary<string, int> { ["play in"] = 5 },
        };

        OnlyBreaks(PlanRule.MostBlanks, work, ("A", [1]), ("B", [1]));
        OnlyBreaks(PlanRule.MostBlanks, work, ("A", [0]), ("B", [1]));
        Assert.Empty(PlanRules.Check(work, Plan(("A", [1]), ("B", [2]))));
    }

    [Fact]
    public void Each_person_keeps_within_minutes_of_their_own_and_pays_set_ups_of_their_own()
    {
        var sitting = Sitting(30, setUps: "plate");
        var work = Evenings(2, 60, Batch("A", 5, sitting), Batch("B", 5, sitting)) with
        {
            Helpers =
            [
                [40, 39],
            ],
        };
        var shared = Plan(("A", [0]), ("B", [0]));

        OnlyBreaks(PlanRule.OpenMinutes, work, ("A", [0]), ("B", [0]));
        Assert.Empty(PlanRules.Check(work, shared with { People = By(("A", [0]), ("B", [1])) }));
        var tooLong = Plan(("A", [0]), ("B", [1])) with { People = By(("B", [1])) };
        Assert.Equal(PlanRule.OpenMinutes, Assert.Single(PlanRules.Check(work, tooLong)).Rule);
        var nobody = shared with { People = By(("A", [0]), ("B", [2])) };
        Assert.Contains(PlanRules.Check(work, nobody), breach => breach.Rule == PlanRule.PersonKnown);
    }

    private static Dictionary<string, int[]> By(params (string Id, int[] People)[] batches) =>
        batches.ToDictionary(batch => batch.Id, batch => batch.People, StringComparer.Ordinal);

    [Fact]
    public void The_sittings_of_a_day_fit_into_its_open_minutes() =>
        OnlyBreaks(
            PlanRule.OpenMinutes,
            Evenings(6, 60, Batch("A", 5, Sitting(40)), Batch("B", 5, Sitting(30))),
            ("A", [1]),
            ("B", [1])
        );

    [Fact]
    public void A_set_up_takes_its_minutes_on_each_day_that_uses_it() =>
        OnlyBreaks(PlanRule.OpenMinutes, Evenings(6, 60, Batch("A", 5, Sitting(55, setUps: "plate"))), ("A", [1]));

    [Fact]
    public void A_set_up_is_paid_once_a_day_by_all_that_share_it() =>
        Assert.Empty(
            Breaches(
                Evenings(
                    6,
                    60,
                    Batch("A", 5, Sitting(25, setUps: "plate")),
                    Batch("B", 5, Sitting(25, setUps: "plate"))
                ),
                ("A", [1]),
                ("B", [1])
            )
        );

    [Fact]
    public void The_rack_holds_a_batch_from_its_first_sitting_to_its_finish()
    {
        var (early, late) = (TwoSittings with { Blanks = 60 }, TwoSittings with { Id = "B", Blanks = 60 });

        var breach = Assert.Single(Breaches(Evenings(6, 90, early, late), ("A", [0, 3]), ("B", [2, 4])));

        Assert.Equal(new PlanBreach(PlanRule.RackRoom, null, Day: 2, Found: 120, Allowed: 100), breach);
    }

    [Fact]
    public void A_rack_charged_by_required_nights_is_free_while_blanks_only_rest()
    {
        var (early, late) = (TwoSittings with { Blanks = 60 }, TwoSittings with { Id = "B", Blanks = 60 });
        var work = Evenings(6, 90, early, late) with { RackCharge = RackCharge.RequiredNights };

        Assert.Empty(Breaches(work, ("A", [0, 3]), ("B", [2, 4])));
        OnlyBreaks(PlanRule.RackRoom, work, ("A", [0, 3]), ("B", [1, 4]));
    }

    [Theory]
    [InlineData(RackCharge.WholeStay)]
    [InlineData(RackCharge.RequiredNights)]
    public void Blanks_already_on_the_rack_take_their_place_from_the_first_night(RackCharge charge)
    {
        var lying = Batch("A", 5, Sitting(40)) with { Blanks = 60, OnRack = true };
        var other = Batch("B", 5, Sitting(40, nights: 1), Sitting(40)) with { Blanks = 60 };
        var work = Evenings(6, 90, lying, other) with { RackCharge = charge };

        Assert.Empty(Breaches(work, ("A", [1]), ("B", [1, 2])));
        OnlyBreaks(PlanRule.RackRoom, work, ("A", [1]), ("B", [0, 1]));
    }

    [Fact]
    public void Nights_after_the_last_sitting_lie_on_the_rack_and_move_the_finish()
    {
        var resting = Batch("A", 1, Sitting(40, nights: 2)) with { Blanks = 60 };
        var other = Batch("B", 5, Sitting(40, nights: 1), Sitting(40)) with { Blanks = 60 };

        Assert.Equal(2, resting.FinishDay([0]));
        Assert.Equal(1000, PlanCost.Of(Evenings(6, 90, resting), Plan(("A", [0]))));
        OnlyBreaks(PlanRule.RackRoom, Evenings(6, 90, resting, other), ("A", [0]), ("B", [1, 2]));
    }
}

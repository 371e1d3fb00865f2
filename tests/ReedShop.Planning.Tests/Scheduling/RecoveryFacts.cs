using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class RecoveryFacts
{
    private static readonly WorkSitting Evening = Sitting(60);

    private static int DaysLate(Workload work, Plan plan) =>
        work.Batches.Sum(b => b.Weight * Math.Max(0, b.FinishDay(plan.Days[b.Id]) - (b.DueDay ?? int.MaxValue)));

    [Fact]
    public void A_lost_evening_pushes_the_work_of_the_days_after_it_right_in_its_order()
    {
        var work = Evenings(6, 60, Batch("A", 5, Evening), Batch("B", 5, Evening), Batch("C", 5, Evening));
        var lost = work with { OpenMinutes = [60, 0, 60, 60, 60, 60] };

        var plan = RecoveryRule.Recover(lost, Plan(("A", [1]), ("B", [2]), ("C", [4])));

        Assert.Equal((2, 3, 4), (plan.Days["A"][0], plan.Days["B"][0], plan.Days["C"][0]));
    }

    [Fact]
    public void A_damp_night_pushes_the_sittings_of_its_batch_right_and_no_others()
    {
        var damp = Batch("A", 9, Sitting(30, nights: 1), Sitting(30)) with { ReleaseDay = 2 };
        var work = Evenings(9, 60, damp, Batch("B", 9, Sitting(30)));

        var plan = RecoveryRule.Recover(work, Plan(("A", [1, 2]), ("B", [2])));

        Assert.Equal([2, 3], plan.Days["A"]);
        Assert.Equal([2], plan.Days["B"]);
    }

    [Fact]
    public void What_would_be_late_is_pulled_forward_into_a_free_evening()
    {
        var work = Evenings(6, 60, Batch("A", 4, Sitting(60, nights: 1), Evening)) with
        {
            OpenMinutes = [60, 60, 60, 60, 0, 60],
        };

        var plan = RecoveryRule.Recover(work, Plan(("A", [1, 4])));

        Assert.Equal([1, 2], plan.Days["A"]);
    }

    [Fact]
    public void An_evening_that_passed_undone_is_made_up_first()
    {
        var work = Evenings(6, 60, Batch("A", 5, Evening), Batch("B", 5, Evening));

        var plan = RecoveryRule.Recover(work, Plan(("A", [-1]), ("B", [0])));

        Assert.Equal((0, 1), (plan.Days["A"][0], plan.Days["B"][0]));
    }

    [Fact]
    public void A_sitting_with_most_nights_after_it_waits_with_the_one_that_is_pushed_right()
    {
        var work = Evenings(9, 60, Batch("A", 8, Sitting(30, nights: 1, most: 2), Sitting(30))) with
        {
            OpenMinutes = [60, 60, 60, 0, 0, 0, 60, 60, 60],
        };

        var plan = RecoveryRule.Recover(work, Plan(("A", [2, 3])));

        Assert.Equal([6, 7], plan.Days["A"]);
    }

    [Fact]
    public void Where_nothing_happened_nothing_moves() =>
        Anything
            .Work(30, 6)
            .Sample(
                work =>
                {
                    var plan = Build(work, new(0));
                    var late = work.Batches.Any(b =>
                        plan.Days.TryGetValue(b.Id, out var days) && b.FinishDay(days) > b.DueDay
                    );
                    if (!late)
                    {
                        var recovered = RecoveryRule.Recover(work, plan);
                        Assert.All(plan.Days, days => Assert.Equal(days.Value, recovered.Days[days.Key]));
                    }
                },
                iter: 3000
            );

    [Fact]
    public void Whatever_happened_the_recovered_plan_keeps_every_rule() =>
        (
            from work in Anything.Work(30, 6)
            from lost in Gen.Int[0, 29]
            from damp in Gen.Int[0, 5]
            select (work, lost, damp)
        ).Sample(
            happened =>
            {
                var (work, lost, damp) = happened;
                var standing = Build(work, new(0));
                var open = work.OpenMinutes.ToArray();
                open[lost] = 0;
                var after = work with
                {
                    OpenMinutes = open,
                    Batches =
                    [
                        .. work.Batches.Select((b, n) => n == damp ? b with { ReleaseDay = b.ReleaseDay + 1 } : b),
                    ],
                };

                var plan = RecoveryRule.Recover(after, standing);

                Assert.All(
                    PlanRules.Check(after, plan),
                    breach => Assert.Equal(PlanRule.EveryBatchPlanned, breach.Rule)
                );
            },
            iter: 1000
        );

    [Fact]
    public void A_replan_is_never_later_than_what_the_rule_recovers() =>
        (from work in Anything.Work(30, 6) from lost in Gen.Int[0, 29] select (work, lost)).Sample(
            happened =>
            {
                var standing = Build(happened.work, new(0));
                var open = happened.work.OpenMinutes.ToArray();
                open[happened.lost] = 0;
                var after = happened.work with { OpenMinutes = open };

                var recovered = RecoveryRule.Recover(after, standing);

                if (recovered.Days.Count == after.Batches.Count)
                {
                    Assert.True(DaysLate(after, Replan(after, standing, new(0))) <= DaysLate(after, recovered));
                }
            },
            iter: 500
        );

    [Fact]
    public void Draws_of_one_rule_do_not_hang_on_the_draw_before()
    {
        var work = Evenings(6, 60, Batch("A", 5, Evening), Batch("B", 5, Evening));
        var rule = new RecoveryRule(work);
        var (lost, calm) = (new int[2], new int[2]);

        rule.Recover([0, 1], [0, 60, 60, 60, 60, 60], [0, 0], lost);
        rule.Recover([0, 1], [60, 60, 60, 60, 60, 60], [0, 0], calm);

        Assert.Equal([1, 2], lost);
        Assert.Equal([0, 1], calm);
    }

    [Fact]
    public void A_draw_makes_no_garbage()
    {
        var work = Evenings(6, 60, Batch("A", 5, Evening), Batch("B", 5, Evening));
        var rule = new RecoveryRule(work);
        int[] open = [0, 60, 60, 60, 60, 60];
        int[] standing = [0, 1];
        int[] releases = [0, 0];
        var days = new int[2];
        rule.Recover(standing, open, releases, days);

        var before = GC.GetAllocatedBytesForCurrentThread();
        for (var draw = 0; draw < 1000; draw++)
        {
            rule.Recover(standing, open, releases, days);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
    }
}

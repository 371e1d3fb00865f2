using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class QuoteFacts
{
    private static readonly PlanBudget Short = new(200);

    [Fact]
    public void Promised_batches_make_way_as_far_as_their_promise_allows()
    {
        var work = Evenings(9, 60, Batch("A", 2, Sitting(60)), Batch("B", 6, Sitting(60)));
        var promised = Plan(("A", [0]), ("B", [1]));

        var plan = Quote(work, promised, Batch("new", null, Sitting(60, 1), Sitting(60)), Short);

        Assert.Equal([0, 1], plan!.Days["new"]);
        Assert.Equal([2], plan.Days["A"]);
    }

    [Fact]
    public void A_batch_that_is_late_already_may_not_become_later()
    {
        var work = Evenings(9, 60, Batch("A", 0, Sitting(60)));

        var plan = Quote(work, Plan(("A", [1])), Batch("new", null, Sitting(60, 1), Sitting(60)), Short);

        Assert.True(plan!.Days["A"][0] <= 1);
        Assert.Equal(plan.Days["A"][0] == 1 ? [0, 2] : [1, 2], plan.Days["new"]);
    }

    [Theory]
    [InlineData(12)]
    [InlineData(30)]
    public void A_plan_that_all_must_leave_together_is_not_the_only_start(int others)
    {
        var days = Enumerable.Range(0, others).ToArray();
        var work = Evenings(others + 1, 60, [.. days.Select(day => Batch($"B{day}", day + 1, Sitting(60)))]);
        var promised = Plan([.. days.Select(day => ($"B{day}", new[] { day }))]);

        var plan = Quote(work, promised, Batch("new", null, Sitting(60)), new PlanBudget(Rounds: 1));

        Assert.Equal([0], plan!.Days["new"]);
    }

    [Fact]
    public void No_gain_is_so_large_that_a_promise_broken_hides_a_plan_that_keeps_all()
    {
        var work = new Workload(
            [60, 30, .. new int[48], 60, .. new int[9], 60],
            100,
            SetUps(),
            [Batch("A", 0, Sitting(30)), Batch("B", 60, Sitting(60))]
        );

        var plan = Quote(work, Plan(("A", [0]), ("B", [50])), Batch("new", null, Sitting(60)), Short);

        Assert.Equal([50], plan!.Days["new"]);
    }

    [Fact]
    public void There_is_no_quote_where_the_bench_has_no_room() =>
        Assert.Null(
            Quote(
                Evenings(2, 60, Batch("A", 0, Sitting(60)), Batch("B", 1, Sitting(60))),
                Plan(("A", [0]), ("B", [1])),
                Batch("new", null, Sitting(60)),
                Short
            )
        );

    [Fact]
    public void A_quote_keeps_every_rule_and_every_promise_and_is_never_later_than_among_days_held_fixed() =>
        (from work in Anything.Work(30, 6) from newcomer in Anything.Batch(30) select (work, newcomer)).Sample(
            question =>
            {
                var (work, newcomer) = (question.work, question.newcomer with { Id = "new" });
                var promised = Build(work, new(0));
                var fixedPlace = Planner.PlaceEarliest(work, promised, newcomer);
                var plan = Quote(work, promised, newcomer, Short);
                if (promised.Days.Count < work.Batches.Count)
                {
                    return;
                }

                Assert.True(plan is not null || fixedPlace is null);
                if (plan is not null)
                {
                    Assert.Empty(PlanRules.Check(work with { Batches = [.. work.Batches, newcomer] }, plan));
                    Assert.All(
                        work.Batches.Where(batch => batch.DueDay is not null),
                        batch =>
                            Assert.True(
                                batch.FinishDay(plan.Days[batch.Id])
                                    <= Math.Max(batch.DueDay!.Value, batch.FinishDay(promised.Days[batch.Id]))
                            )
                    );
                    Assert.True(fixedPlace is null || plan.Days["new"][^1] <= fixedPlace[^1]);
                }
            },
            iter: 200
        );
}

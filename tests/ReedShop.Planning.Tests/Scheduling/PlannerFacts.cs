using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class PlannerFacts
{
    private static readonly PlanBudget Short = new(60);

    private static PlanRule[] Broken(Workload work, Plan plan) =>
        [.. PlanRules.Check(work, plan).Select(breach => breach.Rule).Distinct()];

    [Fact]
    public void Any_workload_gives_a_plan_that_keeps_every_rule() =>
        Anything
            .Work(30, 9)
            .Sample(
                work =>
                    Assert.DoesNotContain(Broken(work, Build(work, Short)), rule => rule != PlanRule.EveryBatchPlanned),
                iter: 200
            );

    [Fact]
    public void The_same_workload_seed_and_rounds_give_the_same_plan() =>
        Anything.Work(30, 9).Sample(work => Assert.Equal(Build(work, Short).Days, Build(work, Short).Days), iter: 50);

    [Fact]
    public void One_core_gives_the_answer_that_many_give()
    {
        var oneCore = new ConcurrentExclusiveSchedulerPair().ExclusiveScheduler;
        Anything
            .Work(30, 9)
            .Sample(
                work =>
                {
                    var alone = Task.Factory.StartNew(
                        () => Planner.Build(work, Short),
                        CancellationToken.None,
                        TaskCreationOptions.None,
                        oneCore
                    );
                    Assert.Equal(Planner.Build(work, Short).Days, alone.GetAwaiter().GetResult().Days);
                },
                iter: 50,
                threads: 1
            );
    }

    [Fact]
    public void Two_batches_get_the_cheapest_of_all_pairs_of_places() =>
        Anything
            .Work(8, 2)
            .Where(work => work.People == 1)
            .Sample(work => Assert.Equal(CheapestPair(work), PlanCost.Of(work, Build(work, new(20_000)))), iter: 300);

    private static long CheapestPair(Workload work)
    {
        var (first, others) = (work.Batches[0], work with { Batches = [.. work.Batches.Skip(1)] });
        return Anything
            .Places(work, Plan(), first)
            .Select(days => PlanCost.Of(first, days) + Cheapest(work, others, Plan((first.Id, days))))
            .Append(PlanCost.Unplanned + Cheapest(work, others, Plan()))
            .Min();
    }

    private static long Cheapest(Workload work, Workload others, Plan planned) =>
        others.Batches.Count == 0
            ? 0
            : Anything
                .Places(work, planned, others.Batches[0])
                .Select(days => PlanCost.Of(others.Batches[0], days))
                .Append(PlanCost.Unplanned)
                .Min();

    [Fact]
    public void More_rounds_than_none_never_cost_more() =>
        Anything
            .Work(30, 9)
            .Sample(
                work => Assert.True(PlanCost.Of(work, Build(work, Short)) <= PlanCost.Of(work, Build(work, new(0)))),
                iter: 100
            );

    [Fact]
    public void A_batch_that_fits_nowhere_is_left_out()
    {
        var work = Evenings(3, 60, Batch("A", 2, Sitting(61)), Batch("B", 2, Sitting(60)));

        Assert.Equal(["B"], Build(work, Short).Days.Keys);
    }

    [Fact]
    public void A_bench_without_work_has_an_empty_plan() => Assert.Empty(Build(Evenings(3, 60), Short).Days);

    [Fact]
    public void A_cancelled_search_still_answers_with_a_plan()
    {
        var work = Evenings(9, 60, Batch("A", 0, Sitting(60)), Batch("B", 0, Sitting(60)));

        var plan = Planner.Build(work, new(int.MaxValue), new CancellationToken(canceled: true));

        Assert.Equal(2, plan.Days.Count);
    }

    [Fact]
    public void A_deadline_without_a_clock_is_refused() =>
        Assert.Throws<ArgumentException>(() =>
            Build(Evenings(3, 60, Batch("A", 2, Sitting(60))), new(9, Deadline: TimeSpan.FromSeconds(1)))
        );
}

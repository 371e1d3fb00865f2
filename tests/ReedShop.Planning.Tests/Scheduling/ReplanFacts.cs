using CsCheck;
using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class ReplanFacts
{
    private static readonly PlanBudget Short = new(60);

    private static bool IsSettled(Workload work, Plan plan) =>
        PlanRules.Check(work, plan).Count == 0
        && work.Batches.All(batch => batch.DueDay is null || batch.FinishDay(plan.Days[batch.Id]) <= batch.DueDay);

    [Fact]
    public void Without_new_facts_nothing_moves() =>
        Anything
            .Work(30, 6)
            .Sample(
                work =>
                {
                    var plan = Build(work, new(0));
                    if (IsSettled(work, plan))
                    {
                        Assert.Equal(plan.Days, Replan(work, plan, Short).Days);
                    }
                },
                iter: 300
            );

    [Fact]
    public void A_plan_that_costs_more_than_it_might_stays_as_long_as_it_is_on_time()
    {
        var work = Evenings(9, 60, Batch("A", 8, Sitting(30, nights: 1), Sitting(30)));

        Assert.Equal([1, 4], Replan(work, Plan(("A", [1, 4])), Short).Days["A"]);
    }

    /// <summary>Nobody waits for either batch; days up to the 21st count as told.</summary>
    [Fact]
    public void Work_that_made_way_far_ahead_comes_back_and_what_was_told_stays()
    {
        var work = Evenings(120, 60, Batch("far", null, Sitting(30, 1), Sitting(30)), Batch("told", null, Sitting(30)));

        var plan = Replan(work, Plan(("far", [100, 101]), ("told", [20])), Short);

        Assert.Equal([0, 1], plan.Days["far"]);
        Assert.Equal([20], plan.Days["told"]);
    }

    [Fact]
    public void A_lost_evening_moves_only_what_was_on_it_and_the_nearest_days_least()
    {
        var (cut, other) = (Batch("A", 8, Sitting(30, 1), Sitting(30, 1), Sitting(30)), Batch("B", 8, Sitting(30)));
        var work = Evenings(9, 60, cut, other) with { OpenMinutes = [60, 60, 60, 60, 0, 60, 60, 60, 60] };

        var plan = Replan(work, Plan(("A", [1, 4, 8]), ("B", [1])), Short);

        Assert.Equal([1, 7, 8], plan.Days["A"]);
        Assert.Equal([1], plan.Days["B"]);
    }

    [Fact]
    public void A_new_batch_finds_its_place_beside_the_others()
    {
        var work = Evenings(5, 60, Batch("A", 4, Sitting(60)), Batch("B", 4, Sitting(60)));

        var plan = Replan(work, Plan(("A", [4])), Short);

        Assert.Equal([4], plan.Days["A"]);
        Assert.Equal([3], plan.Days["B"]);
    }

    [Fact]
    public void Others_move_where_a_batch_would_be_late_without_it()
    {
        var work = Evenings(5, 60, Batch("A", 4, Sitting(60)), Batch("B", 0, Sitting(60)));

        var plan = Replan(work, Plan(("A", [0])), Short);

        Assert.Equal([0], plan.Days["B"]);
        Assert.Equal([4], plan.Days["A"]);
    }

    [Fact]
    public void Lateness_that_nothing_can_cure_moves_nobody()
    {
        var work = Evenings(9, 60, Batch("A", 0, Sitting(60)), Batch("B", 0, Sitting(60)), Batch("C", 8, Sitting(60)));
        var current = Plan(("A", [1]), ("B", [0]), ("C", [5]));

        Assert.Equal(current.Days, Replan(work, current, Short).Days);
    }

    [Fact]
    public void The_days_of_one_batch_are_moved_as_little_as_any_choice_of_days_could() =>
        (
            from work in Anything.Work(14, 1)
            from told in Gen.Int[0, 13].Array[3]
            select (Work: work with { Batches = [work.Batches[0] with { OnRack = false }] }, Told: told)
        ).Sample(
            question =>
            {
                var (work, batch) = (question.Work, question.Work.Batches[0]);
                var told = question.Told.Take(batch.Sittings.Count).Order().ToArray();
                var current = Plan((batch.Id, told));
                var places = Anything.Places(work, Plan(), batch).ToArray();
                var plan = Replan(work, current, Short);
                if (places.Length > 0 && !IsSettled(work, current))
                {
                    Assert.Equal(
                        places.Min(days => (Late(batch, days), Moved(told, days))),
                        (Late(batch, plan.Days[batch.Id]), Moved(told, plan.Days[batch.Id]))
                    );
                }
            },
            iter: 1000
        );

    private static int Late(WorkBatch batch, int[] days) =>
        Math.Max(0, days[^1] + batch.Sittings[^1].Nights - (batch.DueDay ?? 99));

    private static int Moved(int[] told, int[] days) =>
        told.Zip(days)
            .Where(pair => pair.First != pair.Second)
            .Sum(pair =>
                Math.Min(pair.First, pair.Second) switch
                {
                    <= 2 => 8,
                    <= 7 => 3,
                    _ => 1,
                }
            );
}

using ReedShop.Lab;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>The planner beside optima proven by CP-SAT (Google OR-Tools 9.15), computed independently.</summary>
public sealed class OptimumFacts
{
    private const int Cases = 40;
    private const int Rounds = 6_000;
    private static readonly TimeSpan SolverTime = TimeSpan.FromSeconds(20);

    [Fact]
    public void No_plan_is_better_than_the_proven_optimum_and_nineteen_of_twenty_meet_it()
    {
        var found = Enumerable.Range(1, Cases).Select(seed => SmallWork.Draw((ulong)seed)).Select(Compare).ToArray();

        var proven = found.Where(pair => pair.Optimum is not null).ToArray();
        Assert.All(proven, pair => Assert.True(pair.Cost >= pair.Optimum));
        Assert.True(proven.Length >= Cases * 9 / 10, $"only {proven.Length} proven");
        var met = proven.Count(pair => pair.Cost == pair.Optimum);
        Assert.True(met >= proven.Length * 0.95, $"{met} of {proven.Length} met");
    }

    [Fact]
    public void More_minutes_never_make_the_best_plan_of_a_small_case_worse()
    {
        for (var seed = 101UL; seed <= 140; seed++)
        {
            var work = SmallWork.Draw(seed);
            var few = work with { Batches = [.. work.Batches.Take(3)] };
            var longer = few with { OpenMinutes = [.. few.OpenMinutes.Select(minutes => minutes + 15)] };

            Assert.True(PlanCost.Of(longer, Build(longer)) <= PlanCost.Of(few, Build(few)), $"seed {seed}");
        }
    }

    private static Plan Build(Workload work) => Planner.Build(work, new PlanBudget(Rounds));

    private static (long Cost, long? Optimum) Compare(Workload work)
    {
        var plan = Build(work);
        Assert.Empty(PlanRules.Check(work, plan));
        return (PlanCost.Of(work, plan), ProvenOptimum.Of(work, SolverTime));
    }
}

using ReedShop.Planning.Scheduling;
using static System.FormattableString;

namespace ReedShop.Lab;

/// <summary>How often plans of small random cases meet the optimum that a constraint solver proves.</summary>
internal static class OptimumComparison
{
    private static readonly TimeSpan SolverTime = TimeSpan.FromSeconds(60);

    public static string Table(Arguments.CompareOptima asked)
    {
        var (proven, met, better) = (0, 0, 0);
        for (var seed = 1; seed <= asked.Cases; seed++)
        {
            var work = SmallWork.Draw((ulong)seed);
            var cost = PlanCost.Of(work, Planner.Build(work, asked.Effort.Budget(1)));
            var optimum = ProvenOptimum.Of(work, SolverTime);
            proven += optimum is null ? 0 : 1;
            met += optimum == cost ? 1 : 0;
            better += cost < optimum ? 1 : 0;
            Console.Error.Write($"\r{seed} of {asked.Cases}");
        }

        Console.Error.WriteLine();
        return Invariant($"{asked.Cases} cases: {proven} proven, {met} met, {better} below the optimum\n");
    }
}

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Runs the chains of a search side by side. Each chain follows from its own seed; of equal plans the one of the first
/// chain is taken, so that the answer does not hang on which of them is done first.
/// </summary>
internal sealed class Search(PlanBudget budget, CancellationToken cancel)
{
    private const int Chains = 2;

    /// <summary>Small workloads get stuck, so they are heated anew.</summary>
    private const int SmallWorkload = 20;
    private const int Reheats = 4;

    private const int ProbeRounds = 150;

    private readonly long began = Clock(budget)?.GetTimestamp() ?? 0;

    /// <summary>Improves a plan; never returns a worse one.</summary>
    public Draft Improve(Draft start, Cooling cooling)
    {
        if (budget.Rounds == 0 || start.Table.Batches.Length == 0)
        {
            return start;
        }

        var rounds = Math.Min(budget.Rounds, RoundsInTime(start, cooling));
        var best = new Draft[Chains];
        Parallel.For(0, Chains, chain => best[chain] = Run(start, cooling, rounds, (ulong)chain));
        return best.MinBy(draft => draft.Cost)!;
    }

    private Draft Run(Draft start, Cooling cooling, int rounds, ulong chain)
    {
        var best = start.Empty();
        var search = new RuinAndRecreate(start.Copy(), best, new Dice(budget.Seed + (chain << 32)).Next());
        var heats = start.Table.Batches.Length <= SmallWorkload ? Reheats : 1;
        for (var heat = 0; heat < heats; heat++)
        {
            search.Anneal(rounds / heats, cooling, IsOver);
        }

        return best;
    }

    /// <summary>
    /// The rounds that fit before the deadline, from the pace of a few: the plan must have cooled by then. Chains that
    /// find no processor of their own share one.
    /// </summary>
    private int RoundsInTime(Draft start, Cooling cooling)
    {
        if (budget.Deadline is not { } deadline || Clock(budget) is not { } clock)
        {
            return int.MaxValue;
        }

        var probed = clock.GetTimestamp();
        var warm = new Cooling(Math.Sqrt(cooling.Hot * cooling.Cold), cooling.Cold);
        new RuinAndRecreate(start.Copy(), start.Empty(), budget.Seed).Anneal(ProbeRounds, warm, IsOver);
        var round = clock.GetElapsedTime(probed) / ProbeRounds;
        var share = Math.Min(1.0, (double)Environment.ProcessorCount / Chains);
        var left = (deadline - clock.GetElapsedTime(began)) * share;
        return (int)Math.Clamp(left / round, 1, int.MaxValue);
    }

    private bool IsOver() =>
        cancel.IsCancellationRequested
        || (budget.Deadline is { } deadline && budget.Clock!.GetElapsedTime(began) >= deadline);

    private static TimeProvider? Clock(PlanBudget budget) =>
        budget.Deadline is null
            ? null
            : budget.Clock
                ?? throw new ArgumentException("A deadline needs the clock it is read from.", nameof(budget));
}

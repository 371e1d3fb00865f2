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
    private const int RoundsOfHeat = 30;

    private const int ProbeRounds = 150;

    private readonly long began = Clock(budget)?.GetTimestamp() ?? 0;

    /// <summary>Improves a plan; never returns a worse one.</summary>
    public Draft Improve(Draft start, Cooling cooling) =>
        Best(start, cooling, (rounds, seed, stop) => Anneal(start, cooling, rounds, seed, stop), draft => draft.Cost);

    /// <summary>The cheapest answer of the chains; the start itself where there is nothing to search for.</summary>
    /// <param name="chain">What a chain does with its rounds, its seed, and the sign to stop.</param>
    public Draft Best(Draft start, Cooling cooling, Func<int, ulong, Func<bool>, Draft> chain, Func<Draft, long> cost)
    {
        if (budget.Rounds == 0 || start.Table.Batches.Length == 0)
        {
            return start;
        }

        var rounds = Math.Min(budget.Rounds, RoundsInTime(start, cooling));
        var answers = new Draft[Chains];
        Parallel.For(
            0,
            Chains,
            c => answers[c] = chain(rounds, new Dice(budget.Seed + ((ulong)c << 32)).Next(), IsOver)
        );
        return answers.MinBy(cost)!;
    }

    private static Draft Anneal(Draft start, Cooling cooling, int rounds, ulong seed, Func<bool> stop)
    {
        var best = start.Empty();
        var search = new RuinAndRecreate(start.Copy(), best, seed);
        var batches = start.Table.Batches.Length;
        var heats = batches <= SmallWorkload ? Math.Max(1, rounds / (RoundsOfHeat * batches)) : 1;
        for (var heat = 0; heat < heats; heat++)
        {
            search.Anneal(rounds / heats, cooling, stop);
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

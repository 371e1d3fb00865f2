namespace ReedShop.Planning.Scheduling;

/// <summary>
/// Runs the chains of a search side by side. Each chain follows from its own seed; of equal answers the one of the first
/// chain is taken, so that the answer does not hang on which of them is done first.
/// </summary>
internal sealed class Search
{
    private const int Chains = 2;

    /// <summary>Small workloads get stuck, so they are heated often.</summary>
    private const int SmallWorkload = 20;
    private const int HeatsOfSmall = 16;

    /// <summary>The smallest are rather proven, if that takes no more of the allowance than this.</summary>
    private const double ShareToProve = 0.3;

    private readonly PlanBudget budget;
    private readonly CancellationToken cancel;
    private readonly long began;

    public Search(PlanBudget budget, CancellationToken cancel)
    {
        this.budget = budget;
        this.cancel = cancel;
        if (budget.Deadline is not null)
        {
            var clock = budget.Clock ?? throw new ArgumentException("A deadline needs its clock.", nameof(budget));
            began = clock.GetTimestamp();
        }
    }

    /// <summary>Improves a plan; never returns a worse one.</summary>
    public Draft Improve(Draft start, Cooling cooling)
    {
        var least = LeastCosts(start);
        return start.Cost <= least.Sum()
            ? start
            : Best(start, (_, seed, allowance) => Improve(start, least, cooling, seed, allowance), draft => draft.Cost);
    }

    /// <summary>The cheapest answer of the chains; the start itself where there is nothing to search for.</summary>
    public Draft Best(Draft start, Func<int, ulong, Allowance, Draft> chain, Func<Draft, long> cost)
    {
        if (budget.Rounds == 0 || start.Table.Batches.Length == 0)
        {
            return start;
        }

        var answers = new Draft[Chains];
        Parallel.For(0, Chains, c => answers[c] = chain(c, Seed(c), new Allowance(budget, began, cancel)));
        return answers.MinBy(cost)!;
    }

    /// <summary>What each would cost if none stood in the way of another: a plan at their sum is proven the best.</summary>
    private static long[] LeastCosts(Draft start)
    {
        var alone = start.Empty();
        var least = new long[start.Table.Batches.Length];
        for (var batch = 0; batch < least.Length; batch++)
        {
            alone.Place(batch);
            least[batch] = alone.CostOf(batch);
            if (alone.IsPlanned(batch))
            {
                alone.Take(batch);
            }
        }

        return least;
    }

    private ulong Seed(int chain) => new Dice(budget.Seed + ((ulong)chain << 32)).Next();

    private static Draft Improve(Draft start, long[] least, Cooling cooling, ulong seed, Allowance allowance) =>
        Exhaustive.Prove(start, least, allowance, ShareToProve) ?? Anneal(start, least.Sum(), cooling, seed, allowance);

    private static Draft Anneal(Draft start, long enough, Cooling cooling, ulong seed, Allowance allowance)
    {
        var search = new RuinAndRecreate(start.Copy(), seed);
        var heats = start.Table.Batches.Length <= SmallWorkload ? HeatsOfSmall : 1;
        for (var heat = 1; heat <= heats; heat++)
        {
            search.Anneal(cooling, allowance, (double)heat / heats, enough);
        }

        return search.Best();
    }
}

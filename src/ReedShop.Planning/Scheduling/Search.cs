namespace ReedShop.Planning.Scheduling;

/// <summary>Runs the chains of a search side by side; of equal plans the one of the first chain is taken.</summary>
internal sealed class Search(PlanBudget budget, CancellationToken cancel)
{
    private const int Chains = 2;

    private readonly long began = budget.Clock?.GetTimestamp() ?? 0;

    public Draft Improve(Func<Draft> empty, Action<Draft> begin, double hot, double cold)
    {
        var start = empty();
        begin(start);
        if (budget.Rounds == 0)
        {
            return start;
        }

        var best = new Draft[Chains];
        Parallel.For(
            0,
            Chains,
            chain =>
            {
                var draft = empty();
                draft.CopyFrom(start);
                best[chain] = empty();
                var rounds = budget.Rounds == int.MaxValue ? 20000 : budget.Rounds;
                new RuinAndRecreate(draft, best[chain], budget.Seed + (ulong)chain * 7919).Run(rounds, hot, cold, Over);
            }
        );
        return best.MinBy(draft => draft.Cost)!;
    }

    private bool Over() =>
        cancel.IsCancellationRequested
        || (budget.Deadline is { } deadline && budget.Clock!.GetElapsedTime(began) >= deadline);
}

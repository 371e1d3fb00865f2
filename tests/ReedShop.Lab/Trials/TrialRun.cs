namespace ReedShop.Lab.Trials;

/// <summary>What a trial is to be of.</summary>
/// <param name="AlwaysAccepted">Whether buyers take every day they are told.</param>
internal sealed record TrialPlan(int Shops, int Years, int Seed, bool AlwaysAccepted)
{
    public Hardship Hardship { get; init; } = Hardship.Usual;

    public int Days => Years * 365;
}

/// <summary>Many shops, each under every way of promising, on all cores.</summary>
internal static class TrialRun
{
    /// <returns>[way of promising][shop]: what is drawn for a shop hangs on its number alone, not on who runs it.</returns>
    public static TrialResult[][] Of(TrialPlan plan, IReadOnlyList<Rule> rules, Action<int> done)
    {
        var results = rules.Select(_ => new TrialResult[plan.Shops]).ToArray();
        var finished = 0;
        Parallel.For(
            0,
            plan.Shops,
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount },
            shop =>
            {
                var seed = Draws.At((ulong)plan.Seed, What.Shop, (ulong)shop).Next();
                for (var rule = 0; rule < rules.Count; rule++)
                {
                    results[rule][shop] = TrialShop.Run(seed, rules[rule], plan);
                }

                done(Interlocked.Increment(ref finished));
            }
        );
        return results;
    }
}

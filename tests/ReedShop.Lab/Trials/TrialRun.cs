using System.Collections.Concurrent;
using System.Diagnostics;

namespace ReedShop.Lab.Trials;

/// <summary>What a trial is to be of.</summary>
/// <param name="AlwaysAccepted">Whether buyers take every day they are told.</param>
internal sealed record TrialPlan(int Shops, int Years, int Seed, bool AlwaysAccepted)
{
    public const int YearDays = 365;

    public Hardship Hardship { get; init; } = Hardship.Usual;

    /// <summary>No shop is begun after so long, and those finished are the first so many.</summary>
    public TimeSpan Longest { get; init; } = TimeSpan.MaxValue;

    /// <summary>What sets in on one day, if anything.</summary>
    public Shock? Shock { get; init; }

    public int MostDays { get; init; } = int.MaxValue;

    public int Days => Math.Min(MostDays, Years * YearDays);
}

/// <summary>Many shops, each under every way of promising, on all cores.</summary>
internal static class TrialRun
{
    /// <returns>[way of promising][shop]: what is drawn for a shop hangs on its number alone, not on who runs it.</returns>
    public static TrialResult[][] Of(TrialPlan plan, IReadOnlyList<Rule> rules, Action<int> done) =>
        EachShop(plan, done, seed => [.. rules.Select(rule => TrialShop.Run(seed, rule, plan))]);

    /// <summary>The program alone, in the same shops without a shock and with each.</summary>
    /// <returns>[0, or 1 and the number of the shock][shop]</returns>
    public static TrialResult[][] Of(TrialPlan plan, IReadOnlyList<Shock> shocks, Action<int> done)
    {
        TrialPlan[] plans = [plan, .. shocks.Select(shock => plan with { Shock = shock })];
        var parted = TrialShop.FirstDay.AddDays(shocks.Min(shock => shock.Day));
        return EachShop(
            plan,
            done,
            seed =>
            {
                var known = new KnownAnswers(parted);
                var rule = Rule.Program with { Over = book => new ProgramPromising(book, known) };
                return [.. plans.Select(each => TrialShop.Run(seed, rule, each))];
            }
        );
    }

    /// <summary>In order, so that those begun in time are the first so many.</summary>
    private static TrialResult[][] EachShop(TrialPlan plan, Action<int> done, Func<ulong, TrialResult[]> run)
    {
        var clock = Stopwatch.StartNew();
        var results = new ConcurrentDictionary<int, TrialResult[]>();
        var shops = Enumerable.Range(0, plan.Shops).TakeWhile(shop => shop == 0 || clock.Elapsed < plan.Longest);
        Parallel.ForEach(
            Partitioner.Create(shops, EnumerablePartitionerOptions.NoBuffering),
            new ParallelOptions { MaxDegreeOfParallelism = Environment.ProcessorCount },
            shop =>
            {
                results[shop] = run(Draws.At((ulong)plan.Seed, What.Shop, (ulong)shop).Next());
                done(results.Count);
            }
        );
        return
        [
            .. Enumerable
                .Range(0, results[0].Length)
                .Select(way => Enumerable.Range(0, results.Count).Select(shop => results[shop][way]).ToArray()),
        ];
    }
}

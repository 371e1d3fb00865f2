using System.Collections.Concurrent;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>
/// How near an order that goes through kept draws of the shop comes to drawing the whole shop with the order in it: for
/// every promise of some invented shops, by the same number of draws with the same luck.
/// </summary>
internal static class KeptDraws
{
    private const int Years = 2;

    public static string Table(int shops, int seed)
    {
        var seen = new ConcurrentBag<Pair>();
        var compared = Rule.Program with
        {
            Over = book => new ProgramPromising(book, told: (s, r, p) => See(seen, s, r, p)),
        };
        TrialRun.Of(
            new TrialPlan(shops, Years, seed, AlwaysAccepted: false),
            [compared],
            done => Console.Error.WriteLine(FormattableString.Invariant($"{done} of {shops} shops"))
        );
        var lines = seen.GroupBy(pair => pair.Asked).OrderBy(pairs => pairs.Key).Select(pairs => Line([.. pairs]));
        return $"""
            | asked | promises | chance, kept less whole | either way | same day | sooner |
            |---|---|---|---|---|---|
            {string.Join('\n', lines)}

            """;
    }

    private static void See(ConcurrentBag<Pair> seen, ShopState state, PromiseRequest request, Promise promise)
    {
        if (StandingDraws.Suit(promise) && promise.Lines.Any(line => line.IsMade))
        {
            var kept = StandingDraws.Of(state).Of(request, promise, fresh: true);
            var whole = Forecast
                .Of(AskedOrder.Taken(state, request, promise), Forecast.FreshDraws, Forecast.ChoosingDraws)
                .Of(AskedOrder.Name, AskedOrder.ExactCover(promise));
            seen.Add(
                new Pair(
                    request.Confidence,
                    kept.ChanceBy(promise.ShipBy) - whole.ChanceBy(promise.ShipBy),
                    kept.ShipDayFor(request.Confidence),
                    whole.ShipDayFor(request.Confidence)
                )
            );
        }
    }

    private static string Line(Pair[] pairs) =>
        FormattableString.Invariant(
            $"| {pairs[0].Asked} | {pairs.Length} | {pairs.Average(pair => pair.Difference):0.0000} | {pairs.Average(pair => Math.Abs(pair.Difference)):0.0000} | {Share(pairs, pair => pair.Kept == pair.Whole):0.00} | {Share(pairs, pair => pair.Kept < pair.Whole):0.00} |"
        );

    private static double Share(Pair[] pairs, Func<Pair, bool> which) => pairs.Count(which) / (double)pairs.Length;

    private sealed record Pair(double Asked, double Difference, DateOnly? Kept, DateOnly? Whole);
}

using System.Collections.Concurrent;
using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Draws of the whole shop from today's state: yields with what a lot shares, blanks worked again, grades, damp nights that
/// come in runs, lost and slow evenings, extra batches that compete for the same evenings. Each draw recovers its plan by
/// the rule the maker follows. Draws are numbered and their luck is addressed, so that any number of cores gives the same.
/// </summary>
public static class Forecast
{
    /// <summary>Draws for the chances of open promises: a chance of .9 is told to within a point.</summary>
    public const int UsualDraws = 1000;

    /// <summary>Draws that choose a day.</summary>
    internal const int ChoosingDraws = 300;

    /// <summary>Draws that tell the chance of the day that others chose.</summary>
    internal const int FreshDraws = 700;

    /// <param name="first">Number of the first draw: others than those that chose a day are fresh.</param>
    /// <param name="causes">Whether to tell damp nights from lost evenings, for which draws with a late promise run twice.</param>
    public static ShopOutlook Of(
        ShopState state,
        int draws = UsualDraws,
        int first = 0,
        ulong seed = 0,
        bool causes = false,
        CancellationToken cancel = default
    )
    {
        var book = new ForecastBook(state);
        var promises = state.Promises.Count;
        var arrivals = new Arrival[draws * promises];
        var last = state.Promises.Select(promise => state.LastDayFor(promise.ShipBy)).ToArray();
        EachDraw(
            book,
            draws,
            (shop, draw) =>
            {
                var drawn = arrivals.AsSpan(draw * promises, promises);
                shop.Run(new Chances(seed, first + draw), drawn);
                if (causes)
                {
                    AskWhy(shop, new Chances(seed, first + draw), drawn, last);
                }
            },
            cancel
        );
        return new ShopOutlook(state, arrivals);
    }

    /// <summary>On all cores, each with a shop of its own to draw.</summary>
    internal static void EachDraw(
        ForecastBook book,
        int draws,
        Action<ForecastDraw, int> run,
        CancellationToken cancel = default
    )
    {
        var idle = new ConcurrentBag<ForecastDraw>();
        Parallel.For(
            0,
            draws,
            new ParallelOptions { CancellationToken = cancel },
            () => idle.TryTake(out var kept) ? kept : new ForecastDraw(book),
            (draw, _, shop) =>
            {
                run(shop, draw);
                return shop;
            },
            idle.Add
        );
    }

    /// <summary>What is late though nothing was short is drawn again with dry nights.</summary>
    private static void AskWhy(ForecastDraw shop, Chances chances, Span<Arrival> drawn, int[] last)
    {
        var isLate = false;
        for (var promise = 0; promise < drawn.Length; promise++)
        {
            isLate |= drawn[promise].Day > last[promise] && !drawn[promise].WasShort;
        }

        if (isLate)
        {
            var dry = new Arrival[drawn.Length];
            shop.Run(chances, dry, dry: true);
            for (var promise = 0; promise < drawn.Length; promise++)
            {
                drawn[promise] = drawn[promise] with { DayIfDry = dry[promise].Day };
            }
        }
    }
}

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

    /// <param name="first">Number of the first draw: others than those that chose a day are fresh.</param>
    public static ShopOutlook Of(
        ShopState state,
        int draws = UsualDraws,
        int first = 0,
        ulong seed = 0,
        CancellationToken cancel = default
    )
    {
        var book = new ForecastBook(state);
        var promises = state.Promises.Count;
        var arrivals = new Arrival[draws * promises];
        var fresh = new System.Collections.Concurrent.ConcurrentBag<ForecastDraw>();
        Parallel.For(
            0,
            draws,
            new ParallelOptions { CancellationToken = cancel },
            () => fresh.TryTake(out var kept) ? kept : new ForecastDraw(book),
            (draw, _, shop) =>
            {
                shop.Run(new Chances(seed, first + draw), arrivals.AsSpan(draw * promises, promises));
                return shop;
            },
            fresh.Add
        );
        return new ShopOutlook(state, arrivals);
    }
}

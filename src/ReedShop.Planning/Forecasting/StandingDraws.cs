using System.Runtime.CompilerServices;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Forecasting;

/// <summary>One draw of a shop as it stands, kept for orders that ask.</summary>
/// <param name="Moves">Reeds that became free, and those that were taken, as it came.</param>
/// <param name="Arrivals">By promise.</param>
internal sealed record StandingDraw(StandingDays Days, ReedsMoved[] Moves, Arrival[] Arrivals);

/// <summary>
/// Draws of a shop as it stands, made once and kept. An order that asks goes through them by itself: it meets the others
/// where each draw has them, which takes a small part of drawing the whole shop anew. What it costs the others is not
/// drawn: it only takes what they leave.
/// </summary>
internal sealed class StandingDraws
{
    private static readonly ConditionalWeakTable<ShopState, StandingDraws> Kept = [];

    private readonly ShopState state;
    private readonly ForecastBook book;
    private readonly StandingWork work;
    private readonly Lazy<StandingDraw[]>[] parts;

    private StandingDraws(ShopState state)
    {
        this.state = state;
        book = new ForecastBook(state);
        work = new ForecastDraw(book).Work();
        parts = [Part(0, Forecast.ChoosingDraws), Part(Forecast.ChoosingDraws, Forecast.FreshDraws)];
    }

    /// <summary>Those of a state are made when somebody first asks.</summary>
    public static StandingDraws Of(ShopState state) => Kept.GetValue(state, made => new StandingDraws(made));

    /// <summary>An order that moves others, or shares a batch with them, has to be drawn with the whole shop.</summary>
    public static bool Suit(Promise promise) =>
        promise.Moved.Days.Count == 0 && promise.Lines.All(line => line.FromBatch == 0);

    /// <summary>What the draws that choose say of the promises that stand.</summary>
    public ShopOutlook Outlook => new(state, [.. parts[0].Value.SelectMany(draw => draw.Arrivals)]);

    /// <summary>What they say of an order that asks, its batches on their days.</summary>
    /// <param name="fresh">By draws that chose no day.</param>
    public PromiseOutlook Of(PromiseRequest request, Promise promise, bool fresh)
    {
        var others = parts[fresh ? 1 : 0].Value;
        var first = fresh ? Forecast.ChoosingDraws : 0;
        var alone = AskedOrder.Alone(state, request, promise);
        var asked = new ForecastBook(alone);
        var arrivals = new Arrival[others.Length];
        Forecast.EachDraw(
            asked,
            others.Length,
            (shop, draw) => shop.RunAmong(others[draw], new Chances(0, first + draw), arrivals.AsSpan(draw, 1))
        );
        return new ShopOutlook(alone, arrivals).Of(AskedOrder.Name, AskedOrder.ExactCover(promise));
    }

    private Lazy<StandingDraw[]> Part(int first, int count) =>
        new(() =>
        {
            var draws = new StandingDraw[count];
            Forecast.EachDraw(book, count, (shop, draw) => draws[draw] = shop.Keep(work, new Chances(0, first + draw)));
            return draws;
        });
}

using System.Globalization;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Search;

/// <summary>The first of what was found, and how many more there are.</summary>
public sealed record FoundList<T>(IReadOnlyList<T> Items, int More);

/// <summary>Orders and batches that were found, those with the very number first, then the newest.</summary>
public sealed record Found(FoundList<OrderName> Orders, FoundList<BatchName> Batches);

/// <summary>
/// Finds orders and batches. Their names are read whole and compared here, because the database knows neither case nor
/// accents beyond ASCII, and one maker's shop has some thousands of them in a lifetime.
/// </summary>
public sealed class Searching(OrderStore orders, BatchStore batches, CatalogueStore catalogue)
{
    public const int MostShown = 20;

    public async Task<Result<Found>> Find(string text, CancellationToken cancel)
    {
        var parsed = SearchWords.Parse(text);
        if (parsed.Refusal is { } refusal)
        {
            return refusal;
        }

        var words = parsed.Value;
        var models = (await catalogue.All(cancel)).ToDictionary(
            model => model.Key,
            m => m.Name,
            StringComparer.Ordinal
        );
        var found = (await orders.Names(cancel)).Where(order => IsMeant(words, order));
        var onBench = (await batches.Names(cancel)).Where(batch => IsMeant(words, batch, models));
        return new Found(
            First(found.OrderBy(order => !IsExactly(words, order))),
            First(onBench.OrderBy(batch => !words.IsNumberOf(batch.Number)))
        );
    }

    /// <summary>Where a number names one thing and nothing else was found: its page. Trays of a batch are on its own.</summary>
    public static string? Straight(string text, Found found)
    {
        var parsed = SearchWords.Parse(text);
        if (parsed.IsRefused)
        {
            return null;
        }

        var words = parsed.Value;
        var (orders, batches) = (found.Orders.Items, found.Batches.Items);
        return (orders.Count, batches.Count) switch
        {
            (1, 0) when IsExactly(words, orders[0]) => Page(orders[0]),
            (0, > 0) when words.IsNumberOf(batches[0].Number) && IsOneRun(found.Batches) => Page(batches[0]),
            _ => null,
        };
    }

    /// <summary>An open order stands in the order book with all that can be done for it; others have their own page only.</summary>
    public static string Page(OrderName order) =>
        order.Status is OrderStage.AwaitingPayment or OrderStage.Accepted or OrderStage.OnBench or OrderStage.Ready
            ? $"{OrderBookPages.Address}#order-{order.Number.ToString(CultureInfo.InvariantCulture)}"
            : $"/orders/{order.Id}";

    public static string Page(BatchName batch) => $"{BatchPages.Address}/{batch.Id}";

    private static FoundList<T> First<T>(IEnumerable<T> found)
    {
        var all = found.ToArray();
        return new FoundList<T>([.. all.Take(MostShown)], Math.Max(0, all.Length - MostShown));
    }

    private static bool IsOneRun(FoundList<BatchName> batches) =>
        batches.More == 0 && batches.Items.All(batch => batch.Run == batches.Items[0].Run);

    private static bool IsExactly(SearchWords words, OrderName order) =>
        words.IsNumberOf(order.Number.ToString(CultureInfo.InvariantCulture));

    private static bool IsMeant(SearchWords words, OrderName order) =>
        words.Wanted switch
        {
            SearchWords.Kind.Batch => false,
            SearchWords.Kind.Order => IsExactly(words, order),
            _ => IsExactly(words, order) || (!words.IsNumber && words.AreIn(order.BuyerName, order.BuyerEmail)),
        };

    private static bool IsMeant(SearchWords words, BatchName batch, Dictionary<string, string> models) =>
        words.Wanted != SearchWords.Kind.Order
        && (
            words.IsNumberOf(batch.Number)
            || words.IsNumberOf(batch.Run.ToString(CultureInfo.InvariantCulture))
            || (
                words.Wanted == SearchWords.Kind.Anything
                && words.AreIn(batch.Model, models.GetValueOrDefault(batch.Model), batch.CaneLot)
            )
        );
}

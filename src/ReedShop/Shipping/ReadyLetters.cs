using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;

namespace ReedShop.Shipping;

/// <summary>
/// Tells a buyer, once, that the reeds made for the order lie ready. What came from the drawer lay ready when the order was
/// confirmed; and the letter that asks for the rest of a price says so too.
/// </summary>
public sealed class ReadyLetters(
    OrderStore orders,
    OutboxStore outbox,
    ShopStore shops,
    CatalogueStore catalogue,
    PublicAddress address,
    ShopClock clock
) : ITick
{
    public const string Kind = "order-ready";

    public async Task Run(CancellationToken cancel)
    {
        foreach (var order in (await orders.Open(cancel)).Where(IsTold))
        {
            if (!await WasTold(order, cancel))
            {
                await Write(order, cancel);
            }
        }
    }

    private static bool IsTold(Order order) =>
        order is { Stage: OrderStage.Ready, BegunOn: not null }
        && (order.PaidUtc is not null || !order.PaysBeforeShipping);

    private async Task<bool> WasTold(Order order, CancellationToken cancel) =>
        await outbox.Has(Kind, Subject(order), cancel)
        || await outbox.Has(OrderMessages.BalanceWanted, Subject(order), cancel);

    private static string Subject(Order order) => $"order {order.Number}";

    private async Task Write(Order order, CancellationToken cancel)
    {
        var shop = await shops.Get(cancel);
        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        var (title, text) = new OrderMessages(shop, models).Ready(
            order,
            clock.Today(shop.Zone),
            address.Of($"/orders/{order.Id}")
        );
        outbox.Add(Kind, Subject(order), order.BuyerEmail, title, text, language: order.Language);
        await outbox.TrySave(cancel);
    }
}

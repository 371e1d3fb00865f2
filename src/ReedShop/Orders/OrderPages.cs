using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Orders;

public static class OrderPages
{
    public static void MapOrderPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/orders/{id}", Show).ExcludeFromDescription();
        routes.MapGet("/orders/{id}/receipt", ShowReceipt).ExcludeFromDescription();
    }

    private static async Task<IResult> Show(
        string id,
        OrderStore orders,
        ShopStore shops,
        CatalogueStore catalogue,
        OrderNights nights,
        OrderMoneyPanel money,
        OutboxStore outbox,
        CancellationToken cancel
    )
    {
        if (await orders.Find(id, cancel) is not { } order)
        {
            return Pages.Refuse(OrderStore.Missing, "/");
        }

        var models = await catalogue.All(cancel);
        var view = OrderView.Of(order);
        return Pages.Show<OrderPage>(
            new
            {
                Order = view with
                {
                    Nights = await nights(order.Id, cancel),
                },
                Messages = await outbox.About($"order {order.Number}", OrderMessages.ToBuyers, cancel),
                Money = await money(view, cancel),
                order.BuyerName,
                order.Address,
                Shop = await shops.Get(cancel),
                MayExchange = Exchanging
                    .Sent(order)
                    .Select(sent => sent with { Quantity = Exchanging.Free(order, sent) })
                    .Where(sent => sent.Quantity > 0)
                    .ToArray(),
                Strengths = Strengths(order, models),
                ModelNames = Names(models),
            }
        );
    }

    private static async Task<IResult> ShowReceipt(
        string id,
        OrderStore orders,
        ShopStore shops,
        CatalogueStore catalogue,
        CancellationToken cancel
    ) =>
        await orders.Find(id, cancel) is { } order
            ? Pages.Show<ReceiptPage>(
                new
                {
                    Order = order,
                    Shop = await shops.Get(cancel),
                    ModelNames = Names(await catalogue.All(cancel)),
                }
            )
            : Pages.Refuse(OrderStore.Missing, "/");

    private static Dictionary<string, string> Names(IEnumerable<ReedModel> models) =>
        models.ToDictionary(model => model.Key, model => ReadyNames.Said(model.Name), StringComparer.Ordinal);

    private static Strength[] Strengths(Order order, IEnumerable<ReedModel> models) =>
        [
            .. models
                .Where(model => order.Lines.Any(line => line.Model == model.Key))
                .SelectMany(model => model.Strengths)
                .Distinct()
                .Order(),
        ];
}

using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Orders;

public static class OrderPages
{
    public static void MapOrderPages(this IEndpointRouteBuilder routes) =>
        routes.MapGet("/orders/{id}", Show).ExcludeFromDescription();

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
                ModelNames = models.ToDictionary(model => model.Key, model => model.Name, StringComparer.Ordinal),
            }
        );
    }
}

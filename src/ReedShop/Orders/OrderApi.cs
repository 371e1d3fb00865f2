using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Orders;

public static class OrderApi
{
    public static void MapOrders(this IEndpointRouteBuilder routes)
    {
        var orders = routes.MapGroup("/api/orders").WithTags("Orders");
        orders.MapGet("{id}", Read).WithSummary("An order as its buyer sees it; the id is the buyer's key.");
        orders
            .MapGet("", List)
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("All orders, newest first, for the owner.");
        routes.MapExchanges();
        routes.MapOrderPages();
    }

    private static async Task<Results<Ok<OrderView>, Refused>> Read(
        string id,
        OrderStore orders,
        OrderNights nights,
        OrderPayUrl payUrl,
        HttpContext http,
        CancellationToken cancel
    )
    {
        if (await orders.Find(id, cancel) is not { } order)
        {
            return (Refused)OrderStore.Missing;
        }

        http.SetVersion(order.Version);
        return TypedResults.Ok(
            OrderView.Of(order) with
            {
                Nights = await nights(order.Id, cancel),
                PayUrl = await payUrl(order.Id, cancel),
            }
        );
    }

    private static async Task<Ok<ListPage<OwnerOrderView>>> List(
        OrderStore orders,
        CancellationToken cancel,
        int limit = Paging.UsualLimit,
        int? after = null
    ) =>
        TypedResults.Ok(
            Paging.Page(
                await orders.Page(after, Paging.Bounded(limit), cancel),
                Paging.Bounded(limit),
                order => order.Number,
                OwnerOrderView.Of
            )
        );
}

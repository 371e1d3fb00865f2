using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Orders;
using ReedShop.Platform.Http;

namespace ReedShop.Checkout;

public static class CheckoutApi
{
    public static void MapCheckout(this IEndpointRouteBuilder routes)
    {
        var orders = routes.MapGroup("/api/orders").WithTags("Checkout");
        orders
            .MapPost("", Accept)
            .RequireRateLimiting(Computing.Policy)
            .WithSummary("Takes a quote: the order is accepted with its promised ship date.");
        orders.MapPost("{id}/cancel", Cancel).WithSummary("Cancels an order that has not been shipped.");
        orders.MapPost("{id}/reply", Reply).WithSummary("A buyer's wait, change or cancel after a moved date.");
        routes.MapCheckoutPages();
    }

    private static async Task<Results<Created<OrderView>, Refused>> Accept(
        OrderWish wish,
        Accepting accepting,
        CancellationToken cancel
    ) => (await accepting.Accept(wish, cancel)).CreatedOrRefused(order => $"/api/orders/{order.Id}");

    private static async Task<Results<Ok<OrderView>, Refused>> Cancel(
        string id,
        Cancelling cancelling,
        HttpContext http,
        CancellationToken cancel
    ) =>
        (
            await cancelling.Cancel(
                id,
                http.User.Identity?.IsAuthenticated == true ? "owner" : "buyer",
                http.HonourVersion,
                cancel
            )
        ).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> Reply(
        string id,
        ReplyWish wish,
        Cancelling cancelling,
        HttpContext http,
        CancellationToken cancel
    ) => (await cancelling.Reply(id, wish, http.HonourVersion, cancel)).OkOrRefused();
}

using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>Open orders for the owner. Its forms are answered by Orders, Payments, Shipping and Checkout.</summary>
public static class OrderBookPages
{
    public const string Address = "/bench/orders";

    public static void MapOrderBookPages(this IEndpointRouteBuilder routes) =>
        routes.MapGet(Address, Show).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();

    private static async Task<IResult> Show(OrderBookReader reader, CancellationToken cancel)
    {
        var book = await reader.Read(cancel);
        return book.Refusal is { } refusal
            ? Pages.Refuse(refusal, "/", Address)
            : Pages.Show<OrderBookPage>(new { Book = book.Value });
    }
}

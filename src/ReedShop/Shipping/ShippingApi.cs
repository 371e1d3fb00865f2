using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Orders;
using ReedShop.Platform.Http;

namespace ReedShop.Shipping;

public static class ShippingApi
{
    public static void MapShipping(this IEndpointRouteBuilder routes)
    {
        routes
            .MapPost("/api/orders/{id}/ship", Ship)
            .WithTags("Shipping")
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("Marks a ready order as shipped and tells the buyer.");
        routes.MapShippingPages();
    }

    private static async Task<Results<Ok<OrderView>, Refused>> Ship(
        string id,
        ShipWish wish,
        Parcels parcels,
        HttpContext http,
        CancellationToken cancel
    ) => (await parcels.Ship(id, wish, http.HonourVersion, cancel)).OkOrRefused();
}

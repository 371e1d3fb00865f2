using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shipping;

public static class ShippingPages
{
    private const string Orders = "/bench/orders";

    public static void MapShippingPages(this IEndpointRouteBuilder routes) =>
        routes.MapPost(Orders + "/{id}/ship", Ship).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();

    private static async Task<IResult> Ship(string id, IFormCollection form, Parcels parcels, CancellationToken cancel)
    {
        var wish = new ShipWish(Tracking: form.Text("tracking"), Part: form.Text("part").Length > 0);
        var shipped = await parcels.Ship(id, wish, VersionChecks.None, cancel);
        return shipped.Refusal is { } refusal ? Pages.Refuse(refusal, Orders, Orders) : Pages.Go(Orders);
    }
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Shop;

public static class ShopApi
{
    public static void MapShopApi(this IEndpointRouteBuilder routes)
    {
        var shop = routes.MapGroup("/api/shop").WithTags("Shop").RequireAuthorization(Access.OwnerToken);
        shop.MapGet("", Read).WithSummary("The shop's settings.");
        shop.MapPut("", Write).WithSummary("Replaces the shop's settings; If-Match is required once there are any.");
    }

    private static async Task<Results<Ok<ShopView>, Refused>> Read(
        ShopStore shops,
        HttpContext http,
        CancellationToken cancel
    )
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return (Refused)Refusal.Missing("shop yet: it is opened on the first-run page or by PUT");
        }

        http.SetVersion(shop.Version);
        return TypedResults.Ok(ShopView.Of(shop));
    }

    private static async Task<Results<Ok<ShopView>, Refused>> Write(
        ShopView wanted,
        ShopCommands commands,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var saved = await commands.Save(wanted, version => http.RequireVersion(version), cancel);
        if (saved.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        http.SetVersion(saved.Value.Version);
        return TypedResults.Ok(ShopView.Of(saved.Value));
    }
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Shop;

public static class ShopApi
{
    public static void MapShop(this IEndpointRouteBuilder routes)
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
            return (Refused)Refusal.Missing("shop yet: it is set up on the first-run page or by PUT");
        }

        http.SetVersion(shop.Version);
        return TypedResults.Ok(ShopView.Of(shop));
    }

    private static async Task<Results<Ok<ShopView>, Refused>> Write(
        ShopView wanted,
        FactsGate gate,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var saved = await gate.Change((services, stop) => Save(services, wanted, http, stop), cancel);
        if (saved.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        http.SetVersion(saved.Value.Version);
        return TypedResults.Ok(ShopView.Of(saved.Value));
    }

    private static async Task<Result<ShopSettings>> Save(
        IServiceProvider services,
        ShopView wanted,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var shops = services.GetRequiredService<ShopStore>();
        var shop = await shops.FindForChange(cancel);
        if ((wanted.Fault() ?? (shop is null ? null : http.RequireVersion(shop.Version))) is { } refusal)
        {
            return refusal;
        }

        return Open(services, shops, shop, wanted);
    }

    /// <summary>Writes the settings, for the first time or again.</summary>
    internal static ShopSettings Open(IServiceProvider services, ShopStore shops, ShopSettings? shop, ShopView wanted)
    {
        if (shop is null)
        {
            shop = wanted.ToSettings();
            shops.Add(shop);
        }
        else
        {
            wanted.ApplyTo(shop);
        }

        services.GetRequiredService<JournalStore>().Write("owner", "shop", "settings changed");
        return shop;
    }
}

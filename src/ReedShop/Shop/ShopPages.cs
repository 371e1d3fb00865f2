using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>The settings, for the owner to read and change.</summary>
public static class ShopPages
{
    public const string Address = "/bench/shop";

    public static void MapShopPages(this IEndpointRouteBuilder routes)
    {
        var shop = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        shop.MapGet("", Show);
        shop.MapPost("", Save);
    }

    private static async Task<IResult> Show(ShopStore shops, CancellationToken cancel, bool saved = false) =>
        await shops.Find(cancel) is { } shop
            ? Page(ShopForm.Of(shop), Words.Plain(shop.Version), null, saved)
            : NoShop();

    private static async Task<IResult> Save(
        IFormCollection form,
        ShopStore shops,
        ShopCommands commands,
        CancellationToken cancel
    )
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return NoShop();
        }

        var wanted = ShopForm.Read(form, shop);
        var saved = wanted.Refusal is { } fault ? fault : await commands.Save(wanted.Value, form.SeenVersion(), cancel);
        return saved.Refusal is { } refusal
            ? Page(ShopForm.Typed(form), form.NextVersion(refusal, shop.Version), refusal, saved: false)
            : Pages.Go($"{Address}?saved=true");
    }

    private static RazorComponentResult Page(ShopForm form, string version, Refusal? refusal, bool saved) =>
        Pages.Show<ShopPage>(
            new
            {
                Form = form,
                Version = version,
                Refusal = refusal,
                Saved = saved,
            },
            refusal
        );

    private static RazorComponentResult NoShop() => Pages.Refuse(ShopCommands.NoShopYet, "/", Address);
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>What shipping costs, for the owner to read and change.</summary>
public static class ShippingTermsPages
{
    public const string Address = "/bench/shipping";

    public static void MapShippingTermsPages(this IEndpointRouteBuilder routes)
    {
        var terms = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        terms.MapGet("", Show);
        terms.MapPost("", Save);
    }

    private static async Task<IResult> Show(ShopStore shops, CancellationToken cancel, bool saved = false) =>
        await shops.Find(cancel) is { } shop
            ? Page(ShippingForm.Of(shop), Words.Plain(shop.Version), shop, null, saved)
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

        var terms = ShippingForm.Read(form, shop.Currency);
        var saved = terms.Refusal is { } fault
            ? fault
            : await commands.Save(ShopView.Of(shop) with { Shipping = terms.Value }, form.SeenVersion(), cancel);
        return saved.Refusal is { } refusal
            ? Page(ShippingForm.Typed(form), form.NextVersion(refusal, shop.Version), shop, refusal, saved: false)
            : Pages.Go($"{Address}?saved=true");
    }

    private static RazorComponentResult Page(
        ShippingForm form,
        string version,
        ShopSettings shop,
        Refusal? refusal,
        bool saved
    ) =>
        Pages.Show<ShippingTermsPage>(
            new
            {
                Form = form,
                Version = version,
                shop.Currency,
                Refusal = refusal,
                Saved = saved,
            },
            refusal
        );

    private static RazorComponentResult NoShop() => Pages.Refuse(ShopCommands.NoShopYet, "/", Address);
}

using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Cane;

/// <summary>Lots of cane, for the owner to add and count.</summary>
public static class CanePages
{
    public const string Address = "/bench/cane";

    public static void MapCanePages(this IEndpointRouteBuilder routes)
    {
        var cane = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        cane.MapGet("", Show);
        cane.MapPost("", Buy);
        cane.MapPost("count", Count);
    }

    private static Task<IResult> Show(CaneStore cane, CatalogueStore catalogue, CancellationToken cancel) =>
        Page(cane, catalogue, null, null, cancel);

    private static async Task<IResult> Buy(
        IFormCollection form,
        CaneCommands commands,
        CaneStore cane,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var wish = CaneForm.Read(form);
        var bought = wish.Refusal is { } fault ? fault : await commands.Buy(wish.Value, cancel);
        return bought.Refusal is { } refusal ? await Page(cane, catalogue, form, refusal, cancel) : Pages.Go(Address);
    }

    private static async Task<IResult> Count(
        IFormCollection form,
        CaneCommands commands,
        CaneStore cane,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var left = CaneForm.Needed(form, "blanksLeft", "How many blanks does it still give?");
        var counted = left.Refusal is { } fault
            ? fault
            : await commands.Count(form.Text("lot"), new CaneCount(left.Value), cancel);
        return counted.Refusal is { } refusal ? await Page(cane, catalogue, form, refusal, cancel) : Pages.Go(Address);
    }

    private static async Task<IResult> Page(
        CaneStore cane,
        CatalogueStore catalogue,
        IFormCollection? typed,
        Refusal? refusal,
        CancellationToken cancel
    ) =>
        Pages.Show<CanePage>(
            new
            {
                Lots = await cane.All(cancel),
                Models = await catalogue.All(cancel),
                Typed = typed,
                Refusal = refusal,
            },
            refusal
        );
}

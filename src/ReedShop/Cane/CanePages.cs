using System.Globalization;
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
        var wish = Read(form);
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
        var left = Needed(form, "blanksLeft", "How many blanks does it still give?");
        var counted = left.Refusal is { } fault
            ? fault
            : await commands.Count(form.Text("lot"), new CaneCount(left.Value), cancel);
        return counted.Refusal is { } refusal ? await Page(cane, catalogue, form, refusal, cancel) : Pages.Go(Address);
    }

    private static Result<CaneWish> Read(IFormCollection form)
    {
        var harvest = Needed(form, "harvest", "In which year was it cut?");
        var blanks = Needed(form, "blanks", "How many blanks does it give?");
        return (harvest.Refusal ?? blanks.Refusal) is { } refusal ? refusal
            : !DateOnly.TryParseExact(
                form.Text("seasonedFrom"),
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var seasonedFrom
            )
                ? Refusal.Invalid("seasonedFrom", "From when on does it season?", "a date such as 2026-06-01")
            : new CaneWish(
                form.Text("lot"),
                form.Text("model"),
                form.Text("supplier"),
                harvest.Value,
                seasonedFrom,
                blanks.Value
            );
    }

    private static Result<int> Needed(IFormCollection form, string field, string question) =>
        form.Whole(field)
            .Then<int>(number =>
                number is { } whole ? whole : Refusal.Invalid(field, question, "a whole number of 0 or more")
            );

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

using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>A maker types in what already stands on the bench on the first day.</summary>
public static class StartingPages
{
    public const string Address = "/bench/start";

    public static void MapStartingPages(this IEndpointRouteBuilder routes)
    {
        var start = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        start.MapGet(
            "",
            (CatalogueStore catalogue, CancellationToken cancel) => Page(catalogue, StartingText.Empty, null, cancel)
        );
        start.MapPost("", Write);
    }

    private static async Task<IResult> Write(
        IFormCollection form,
        CatalogueStore catalogue,
        StartingCommands starting,
        CancellationToken cancel
    )
    {
        var typed = new StartingText(
            form.Text("drawer"),
            form.Text("shelf"),
            form.Text("batches"),
            form.Text("promises")
        );
        var models = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        var read = typed.Parse(models);
        var refusal = read.Refusal ?? (await starting.Write(read.Value, cancel)).Refusal;
        return refusal is null ? Pages.Go(WeekPages.Address) : await Page(catalogue, typed, refusal, cancel);
    }

    private static async Task<IResult> Page(
        CatalogueStore catalogue,
        StartingText typed,
        Refusal? refusal,
        CancellationToken cancel
    ) =>
        Pages.Show<StartingPage>(
            new
            {
                Typed = typed,
                Models = await catalogue.All(cancel),
                Refusal = refusal,
            },
            refusal
        );
}

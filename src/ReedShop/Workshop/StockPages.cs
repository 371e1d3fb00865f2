using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>Drawer and shelf, and counting what really lies there.</summary>
public static class StockPages
{
    public const string Address = "/bench/drawer";

    public static void MapStockPages(this IEndpointRouteBuilder routes)
    {
        var drawer = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        drawer.MapGet("", Show);
        drawer.MapPost("count", CountDrawer);
        drawer.MapPost("shelf", CountShelf);
        drawer.MapPost("clip", Clip);
    }

    private static Task<IResult> Show(
        FactsReader reader,
        StockStore stock,
        ShelfLevels levels,
        CatalogueStore catalogue,
        CancellationToken cancel
    ) => Page(reader, stock, levels, catalogue, null, null, cancel);

    private static async Task<IResult> CountDrawer(
        IFormCollection form,
        Stocktaking stocktaking,
        FactsReader reader,
        StockStore stock,
        ShelfLevels levels,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var wish = ReadDrawer(form);
        var counted = wish.Refusal is { } fault ? fault : await stocktaking.CountDrawer(wish.Value, cancel);
        return counted.Refusal is { } refusal
            ? await Page(reader, stock, levels, catalogue, form, refusal, cancel)
            : Pages.Go(Address);
    }

    private static async Task<IResult> Clip(
        IFormCollection form,
        Stocktaking stocktaking,
        FactsReader reader,
        StockStore stock,
        ShelfLevels levels,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var wish = ReadClip(form);
        var clipped = wish.Refusal is { } fault ? fault : await stocktaking.Clip(wish.Value, cancel);
        return clipped.Refusal is { } refusal
            ? await Page(reader, stock, levels, catalogue, form, refusal, cancel)
            : Pages.Go(Address);
    }

    private static async Task<IResult> CountShelf(
        IFormCollection form,
        Stocktaking stocktaking,
        FactsReader reader,
        StockStore stock,
        ShelfLevels levels,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var count = form.Whole("count");
        var lot = form.Text("caneLot") is { Length: > 0 } named ? named : null;
        var counted = count.Refusal is { } fault
            ? fault
            : await stocktaking.CountShelf(new ShelfCountWish(form.Text("model"), count.Value ?? 0, lot), cancel);
        return counted.Refusal is { } refusal
            ? await Page(reader, stock, levels, catalogue, form, refusal, cancel)
            : Pages.Go(Address);
    }

    public static Result<ClipWish> ReadClip(IFormCollection form)
    {
        var counts = form.Wholes("cameUp", "spoiled");
        return counts.Refusal is { } refusal ? refusal
            : Strength.TryParse(form.Text("from"), out var from)
                ? new ClipWish(form.Text("model"), from, counts.Value["cameUp"], counts.Value["spoiled"])
            : Refusal.Invalid("from", "The strength cannot be used.", Strength.Allowed);
    }

    /// <summary>"own use", "tested".</summary>
    internal static string Said(Condition condition) =>
        condition == Condition.OwnUse ? "own use" : condition.ToString().ToLowerInvariant();

    private static Result<DrawerCountWish> ReadDrawer(IFormCollection form)
    {
        var count = form.Whole("count");
        return count.Refusal is { } refusal ? refusal
            : !Strength.TryParse(form.Text("strength"), out var strength)
                ? Refusal.Invalid("strength", "The strength cannot be used.", Strength.Allowed)
            : !Enum.TryParse<Condition>(form.Text("condition"), out var condition)
                ? Refusal.Invalid(
                    "condition",
                    "The condition is unknown.",
                    string.Join(", ", Enum.GetValues<Condition>().Select(Said))
                )
            : count.Value is not { } counted
                ? Refusal.Invalid("count", "How many lie there?", "a whole number of 0 or more")
            : new DrawerCountWish(form.Text("model"), strength, counted, condition);
    }

    private static async Task<IResult> Page(
        FactsReader reader,
        StockStore stock,
        ShelfLevels levels,
        CatalogueStore catalogue,
        IFormCollection? typed,
        Refusal? refusal,
        CancellationToken cancel
    )
    {
        var facts = await reader.Read(cancel);
        var counts = await stock.Drawer(cancel);
        return facts.Refusal is { } missing
            ? Pages.Refuse(missing, "/", Address)
            : Pages.Show<DrawerPage>(
                new
                {
                    Drawer = Stocktaking.Drawer(facts.Value, counts),
                    Shelf = Stocktaking.Shelf(facts.Value),
                    Levels = (await levels.Read(cancel)).Value,
                    Models = await catalogue.All(cancel),
                    Typed = typed,
                    Refusal = refusal,
                },
                refusal
            );
    }
}

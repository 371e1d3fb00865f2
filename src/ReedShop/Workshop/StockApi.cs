using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class StockApi
{
    public static void MapStock(this IEndpointRouteBuilder routes)
    {
        var stock = routes.MapGroup("/api").WithTags("Stock").RequireAuthorization(Access.OwnerToken);
        stock.MapGet("drawer", Drawer).WithSummary("Finished reeds by model, strength and condition.");
        stock.MapPost("drawer/count", CountDrawer).WithSummary("Sets what really lies in the drawer.");
        stock
            .MapPost("drawer/clip", Clip)
            .WithSummary(
                "Records reeds whose tips were clipped: how many came up a quarter step, how many are spoiled."
            );
        stock.MapGet("shelf", Shelf).WithSummary("Rested blanks between the legs, by model and cane lot.");
        stock
            .MapGet("shelf/levels", Levels)
            .WithSummary("How many rested blanks the shelf should hold, and what to prepare in idle evenings.");
        stock.MapPost("shelf/count", CountShelf).WithSummary("Sets what really lies on the shelf.");
    }

    private static async Task<Results<Ok<IReadOnlyList<DrawerView>>, Refused>> Drawer(
        FactsReader reader,
        StockStore stock,
        CancellationToken cancel
    )
    {
        var facts = await reader.Read(cancel);
        var counts = await stock.Drawer(cancel);
        return facts.Then<IReadOnlyList<DrawerView>>(read => Stocktaking.Drawer(read, counts).ToArray()).OkOrRefused();
    }

    private static async Task<Results<Ok<DrawerView>, Refused>> CountDrawer(
        DrawerCountWish wish,
        Stocktaking stocktaking,
        CancellationToken cancel
    ) => (await stocktaking.CountDrawer(wish, cancel)).OkOrRefused();

    private static async Task<Results<Ok<IReadOnlyList<DrawerView>>, Refused>> Clip(
        ClipWish wish,
        Stocktaking stocktaking,
        CancellationToken cancel
    ) => (await stocktaking.Clip(wish, cancel)).OkOrRefused();

    private static async Task<Results<Ok<IReadOnlyList<ShelfView>>, Refused>> Shelf(
        FactsReader reader,
        CancellationToken cancel
    ) =>
        (await reader.Read(cancel))
            .Then<IReadOnlyList<ShelfView>>(facts => Stocktaking.Shelf(facts).ToArray())
            .OkOrRefused();

    private static async Task<Results<Ok<IReadOnlyList<ShelfLevelView>>, Refused>> Levels(
        ShelfLevels levels,
        CancellationToken cancel
    ) => (await levels.Read(cancel)).OkOrRefused();

    private static async Task<Results<Ok<ShelfView>, Refused>> CountShelf(
        ShelfCountWish wish,
        Stocktaking stocktaking,
        CancellationToken cancel
    ) => (await stocktaking.CountShelf(wish, cancel)).OkOrRefused();
}

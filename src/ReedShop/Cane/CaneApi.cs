using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Cane;

public sealed record CaneView(
    string Lot,
    string Model,
    string Supplier,
    int Harvest,
    DateOnly SeasonedFrom,
    int BlanksLeft
)
{
    public static CaneView Of(CaneLot lot) =>
        new(lot.Key, lot.Model, lot.Supplier, lot.Harvest, lot.SeasonedFrom, lot.BlanksLeft);
}

public sealed record CaneWish(
    string Lot,
    string Model,
    string Supplier,
    int Harvest,
    DateOnly SeasonedFrom,
    int Blanks
);

/// <summary>A new count of a lot.</summary>
public sealed record CaneCount(int BlanksLeft);

public static class CaneApi
{
    public static void MapCaneApi(this IEndpointRouteBuilder routes)
    {
        var cane = routes.MapGroup("/api/cane").WithTags("Cane").RequireAuthorization(Access.OwnerToken);
        cane.MapGet("", List).WithSummary("Cane lots, longest seasoned first.");
        cane.MapPost("", Buy).WithSummary("Adds a lot of cane.");
        cane.MapPost("{lot}/count", Count).WithSummary("Sets how many blanks a lot still gives.");
    }

    private static async Task<Ok<IEnumerable<CaneView>>> List(CaneStore cane, CancellationToken cancel) =>
        TypedResults.Ok((await cane.All(cancel)).Select(CaneView.Of));

    private static async Task<Results<Created<CaneView>, Refused>> Buy(
        CaneWish wish,
        CaneCommands commands,
        CancellationToken cancel
    ) => (await commands.Buy(wish, cancel)).CreatedOrRefused(lot => $"/api/cane/{Uri.EscapeDataString(lot.Lot)}");

    private static async Task<Results<Ok<CaneView>, Refused>> Count(
        string lot,
        CaneCount count,
        CaneCommands commands,
        CancellationToken cancel
    ) => (await commands.Count(lot, count, cancel)).OkOrRefused();
}

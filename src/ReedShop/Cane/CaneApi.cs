using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Cane;

public sealed record CaneView(
    string Lot,
    string Model,
    string Supplier,
    int Harvest,
    DateOnly SeasonedFrom,
    int BlanksLeft
);

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
    private const int MostBlanks = 100_000;

    public static void MapCane(this IEndpointRouteBuilder routes)
    {
        var cane = routes.MapGroup("/api/cane").WithTags("Cane").RequireAuthorization(Access.OwnerToken);
        cane.MapGet("", List).WithSummary("Cane lots, longest seasoned first.");
        cane.MapPost("", Buy).WithSummary("Adds a lot of cane.");
        cane.MapPost("{lot}/count", Count).WithSummary("Sets how many blanks a lot still gives.");
    }

    private static CaneView View(CaneLot lot) =>
        new(lot.Key, lot.Model, lot.Supplier, lot.Harvest, lot.SeasonedFrom, lot.BlanksLeft);

    private static async Task<Ok<IEnumerable<CaneView>>> List(CaneStore cane, CancellationToken cancel) =>
        TypedResults.Ok((await cane.All(cancel)).Select(View));

    private static async Task<Results<Created<CaneView>, Refused>> Buy(
        CaneWish wish,
        FactsGate gate,
        CancellationToken cancel
    ) =>
        (await gate.Change((services, stop) => Save(services, wish, stop), cancel)).CreatedOrRefused(lot =>
            $"/api/cane/{lot.Lot}"
        );

    private static async Task<Result<CaneView>> Save(IServiceProvider services, CaneWish wish, CancellationToken cancel)
    {
        var lots = services.GetRequiredService<CaneStore>();
        if (await services.GetRequiredService<CatalogueStore>().Find(wish.Model, cancel) is null)
        {
            return Refusal.Invalid("model", $"There is no model {wish.Model}.", "a model of GET /api/models");
        }

        if (string.IsNullOrWhiteSpace(wish.Lot) || wish.Lot.Length > 40 || wish.Blanks is < 0 or > MostBlanks)
        {
            return Refusal.Invalid(
                "lot",
                "The lot cannot be used.",
                "a name of 1 to 40 characters, 0 to 100000 blanks"
            );
        }

        if (await lots.Find(wish.Lot, cancel) is not null)
        {
            return Refusal.Stage($"Lot {wish.Lot} is there already.", "another name, or a count of the lot");
        }

        var lot = new CaneLot
        {
            Key = wish.Lot.Trim(),
            Model = wish.Model,
            Supplier = wish.Supplier,
            Harvest = wish.Harvest,
            SeasonedFrom = wish.SeasonedFrom,
            BlanksLeft = wish.Blanks,
        };
        lots.Add(lot);
        services
            .GetRequiredService<JournalStore>()
            .Write("owner", $"cane {lot.Key}", $"bought, {lot.BlanksLeft} blanks");
        return View(lot);
    }

    private static async Task<Results<Ok<CaneView>, Refused>> Count(
        string lot,
        CaneCount count,
        FactsGate gate,
        CancellationToken cancel
    ) => (await gate.Change((services, stop) => SaveCount(services, lot, count, stop), cancel)).OkOrRefused();

    private static async Task<Result<CaneView>> SaveCount(
        IServiceProvider services,
        string key,
        CaneCount count,
        CancellationToken cancel
    )
    {
        if (await services.GetRequiredService<CaneStore>().Find(key, cancel) is not { } lot)
        {
            return Refusal.Missing("such lot");
        }

        if (count.BlanksLeft is < 0 or > MostBlanks)
        {
            return Refusal.Invalid("blanksLeft", "The count cannot be used.", "0 to 100000 blanks");
        }

        services
            .GetRequiredService<JournalStore>()
            .Write("owner", $"cane {key}", $"counted: {lot.BlanksLeft} became {count.BlanksLeft}");
        lot.BlanksLeft = count.BlanksLeft;
        return View(lot);
    }
}

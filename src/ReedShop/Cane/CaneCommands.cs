using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Cane;

/// <summary>Cane bought and counted, whichever door it comes through.</summary>
public sealed class CaneCommands(FactsGate gate)
{
    private const int MostBlanks = 100_000;

    public Task<Result<CaneView>> Buy(CaneWish wish, CancellationToken cancel) =>
        gate.Change((services, stop) => Buy(services, wish, stop), cancel);

    public Task<Result<CaneView>> Count(string lot, CaneCount count, CancellationToken cancel) =>
        gate.Change((services, stop) => Count(services, lot, count, stop), cancel);

    private static async Task<Result<CaneView>> Buy(IServiceProvider services, CaneWish wish, CancellationToken cancel)
    {
        var lots = services.GetRequiredService<CaneStore>();
        var name = wish.Lot.Trim();
        if (await services.GetRequiredService<CatalogueStore>().Find(wish.Model, cancel) is null)
        {
            return Refusal.Invalid(
                "model",
                $"There is no model {wish.Model}.",
                Words.Named("a model that is listed on the page of models", "a model of GET /api/models")
            );
        }

        if (name.Length is 0 or > 40 || name.Any(char.IsControl) || wish.Blanks is < 0 or > MostBlanks)
        {
            return Refusal.Invalid(
                "lot",
                "The lot cannot be used.",
                "a name of 1 to 40 characters, 0 to 100000 blanks"
            );
        }

        if (await lots.Find(name, cancel) is not null)
        {
            return Refusal.Stage($"Lot {wish.Lot} is there already.", "another name, or a count of the lot");
        }

        var lot = new CaneLot
        {
            Key = name,
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
        return CaneView.Of(lot);
    }

    private static async Task<Result<CaneView>> Count(
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
        return CaneView.Of(lot);
    }
}

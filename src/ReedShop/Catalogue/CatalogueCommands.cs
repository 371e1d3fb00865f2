using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Catalogue;

/// <summary>Changes of the catalogue, whichever door they come through.</summary>
public sealed class CatalogueCommands(FactsGate gate)
{
    private const int MostKeyCharacters = 40;
    private const long MostPriceMinor = 1_000_000;
    private const decimal LeastGrams = 0.1m;
    private const decimal MostGrams = 100;

    /// <summary>Two digits after the point: a scale for letters shows no more.</summary>
    private const int GramDigits = 2;

    /// <summary>Adds the model, or replaces it where <paramref name="check"/> lets its version pass.</summary>
    public Task<Result<ReedModel>> Save(string key, ModelWish wish, VersionCheck check, CancellationToken cancel) =>
        gate.Change((services, stop) => Save(services, key, wish, check, stop), cancel);

    private static async Task<Result<ReedModel>> Save(
        IServiceProvider services,
        string key,
        ModelWish wish,
        VersionCheck check,
        CancellationToken cancel
    )
    {
        var shop = await services.GetRequiredService<ShopStore>().Find(cancel);
        var models = services.GetRequiredService<CatalogueStore>();
        var model = await models.FindForChange(key, cancel);
        var route = RouteShape.Parse(wish.Route);
        var fault = Fault(key, wish, shop) ?? route.Refusal ?? (model is null ? null : check(model.Version));
        if (fault is null && model is not null)
        {
            fault = await services.GetRequiredService<RouteGuard>()(key, model.Route, route.Value, cancel);
        }

        if (fault is not null)
        {
            return fault;
        }

        if (model is null)
        {
            model = new ReedModel
            {
                Key = key,
                Name = "",
                Instrument = "",
                Cut = "",
                Strengths = [],
                Route = route.Value,
            };
            models.Add(model);
        }

        model.Name = wish.Name.Trim();
        model.Instrument = wish.Instrument.Trim();
        model.Cut = wish.Cut.Trim();
        model.Strengths = [.. wish.Strengths.Distinct().Order()];
        model.PriceMinor = wish.Price.Amount;
        model.Route = route.Value;
        model.Selling = wish.Selling;
        model.GramsPerReed = wish.GramsPerReed ?? model.GramsPerReed;
        model.Version++;
        services.GetRequiredService<JournalStore>().Write("owner", $"model {key}", "saved");
        return model;
    }

    private static Refusal? Fault(string key, ModelWish wish, ShopSettings? shop) =>
        key switch
        {
            _ when shop is null => ShopCommands.NoShopYet,
            _ when key.Length > MostKeyCharacters
                    || !key.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c == '-') => Refusal.Invalid(
                "model",
                "The model's short name cannot be used.",
                "1 to 40 of a-z, 0-9 and -"
            ),
            _ when string.IsNullOrWhiteSpace(wish.Name) || wish.Name.Length > 100 => Refusal.Invalid(
                "name",
                "The model has no usable name.",
                "1 to 100 characters"
            ),
            _ when wish.Strengths.Count == 0 => Refusal.Invalid(
                "strengths",
                "No strength is offered.",
                $"at least one, such as {Words.Named("2.5, 3, 3.5", "[2.5, 3, 3.5]")}"
            ),
            _ when wish.Price.Amount is < 0 or > MostPriceMinor => Refusal.Invalid(
                "price",
                "The price cannot be used.",
                Words.Named(
                    $"{new Money(0, shop!.Currency).Figure} to {new Money(MostPriceMinor, shop.Currency)}",
                    $"0 to {MostPriceMinor} in the minor unit"
                )
            ),
            _ when wish.GramsPerReed is { } grams && !IsWeight(grams) => Refusal.Invalid(
                "gramsPerReed",
                "The weight of a reed cannot be used.",
                FormattableString.Invariant($"{LeastGrams} to {MostGrams} grams, such as 1.5")
            ),
            _ when wish.Price.Currency != shop.Currency => Refusal.Invalid(
                "price.currency",
                "The price is in another currency than the shop's.",
                shop.Currency
            ),
            _ => null,
        };

    private static bool IsWeight(decimal grams) =>
        grams is >= LeastGrams and <= MostGrams && decimal.Round(grams, GramDigits) == grams;
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Catalogue;

/// <summary>A model as buyers and the owner see it.</summary>
public sealed record ModelView(
    string Model,
    string Name,
    string Instrument,
    string Cut,
    IReadOnlyList<Strength> Strengths,
    Money Price,
    bool Selling,
    IReadOnlyList<LegShape> Route
)
{
    public static ModelView Of(ReedModel model, string currency) =>
        new(
            model.Key,
            model.Name,
            model.Instrument,
            model.Cut,
            model.Strengths,
            new Money(model.PriceMinor, currency),
            model.Selling,
            RouteShape.Of(model.Route)
        );
}

/// <summary>What the owner sends to add or replace a model.</summary>
public sealed record ModelWish(
    string Name,
    string Instrument,
    string Cut,
    IReadOnlyList<Strength> Strengths,
    Money Price,
    IReadOnlyList<LegShape> Route,
    bool Selling = true
);

public static class CatalogueApi
{
    private const int MostKeyCharacters = 40;
    private const long MostPriceMinor = 1_000_000;

    public static void MapCatalogue(this IEndpointRouteBuilder routes)
    {
        var models = routes.MapGroup("/api/models").WithTags("Catalogue");
        models.MapGet("", List).WithSummary("What is sold.");
        models.MapGet("{model}", Read).WithSummary("One model.");
        models
            .MapPut("{model}", Write)
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("Adds a model, or replaces it: then If-Match is required.");
    }

    private static async Task<Ok<IEnumerable<ModelView>>> List(
        CatalogueStore models,
        ShopStore shops,
        CancellationToken cancel
    )
    {
        var currency = (await shops.Find(cancel))?.Currency ?? "";
        var all = await models.All(cancel);
        return TypedResults.Ok(all.Where(model => model.Selling).Select(model => ModelView.Of(model, currency)));
    }

    private static async Task<Results<Ok<ModelView>, Refused>> Read(
        string model,
        CatalogueStore models,
        ShopStore shops,
        HttpContext http,
        CancellationToken cancel
    )
    {
        if (await models.Find(model, cancel) is not { } found)
        {
            return (Refused)Refusal.Missing("such model");
        }

        http.SetVersion(found.Version);
        return TypedResults.Ok(ModelView.Of(found, (await shops.Get(cancel)).Currency));
    }

    private static async Task<Results<Ok<ModelView>, Refused>> Write(
        string model,
        ModelWish wish,
        FactsGate gate,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var saved = await gate.Change((services, stop) => Save(services, model, wish, http, stop), cancel);
        if (saved.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        http.SetVersion(saved.Value.Version);
        return TypedResults.Ok(ModelView.Of(saved.Value, wish.Price.Currency));
    }

    private static async Task<Result<ReedModel>> Save(
        IServiceProvider services,
        string key,
        ModelWish wish,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var shop = await services.GetRequiredService<ShopStore>().Find(cancel);
        var models = services.GetRequiredService<CatalogueStore>();
        var model = await models.FindForChange(key, cancel);
        var route = RouteShape.Parse(wish.Route);
        var fault =
            Fault(key, wish, shop) ?? route.Refusal ?? (model is null ? null : http.RequireVersion(model.Version));
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
        model.Version++;
        services.GetRequiredService<JournalStore>().Write("owner", $"model {key}", "saved");
        return model;
    }

    private static Refusal? Fault(string key, ModelWish wish, ShopSettings? shop) =>
        key switch
        {
            _ when shop is null => Refusal.Missing("shop yet: set it up first"),
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
                "at least one, such as [2.5, 3, 3.5]"
            ),
            _ when wish.Price.Amount is < 0 or > MostPriceMinor => Refusal.Invalid(
                "price",
                "The price cannot be used.",
                "0 to 1000000 in the minor unit"
            ),
            _ when wish.Price.Currency != shop.Currency => Refusal.Invalid(
                "price.currency",
                "The price is in another currency than the shop's.",
                shop.Currency
            ),
            _ => null,
        };
}

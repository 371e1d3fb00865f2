using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
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
    IReadOnlyList<LegShape> Route,
    decimal GramsPerReed = ReedModel.UsualGrams
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
            RouteShape.Of(model.Route),
            model.GramsPerReed
        );
}

/// <summary>What the owner sends to add or replace a model.</summary>
/// <param name="GramsPerReed">What one reed weighs; where it is missing a model keeps what it has.</param>
public sealed record ModelWish(
    string Name,
    string Instrument,
    string Cut,
    IReadOnlyList<Strength> Strengths,
    Money Price,
    IReadOnlyList<LegShape> Route,
    bool Selling = true,
    decimal? GramsPerReed = null
)
{
    /// <summary>The model as it is, to change some of it.</summary>
    public static ModelWish Of(ReedModel model, string currency) =>
        new(
            model.Name,
            model.Instrument,
            model.Cut,
            model.Strengths,
            new Money(model.PriceMinor, currency),
            RouteShape.Of(model.Route),
            model.Selling,
            model.GramsPerReed
        );
}

public static class CatalogueApi
{
    public static void MapCatalogueApi(this IEndpointRouteBuilder routes)
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
        CatalogueCommands commands,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var saved = await commands.Save(model, wish, version => http.RequireVersion(version), cancel);
        if (saved.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        http.SetVersion(saved.Value.Version);
        return TypedResults.Ok(ModelView.Of(saved.Value, wish.Price.Currency));
    }
}

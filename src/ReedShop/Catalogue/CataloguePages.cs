using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Catalogue;

/// <summary>What is sold, for the owner to add to and change.</summary>
public static class CataloguePages
{
    public const string Address = "/bench/models";

    internal static readonly VersionCheck OnlyNew = _ =>
        Refusal.Invalid("ready", "This model is there already.", "another model; its price is changed in the list");

    public static void MapCataloguePages(this IEndpointRouteBuilder routes)
    {
        var models = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        models.MapGet("", Show);
        models.MapPost("", Add);
        models.MapPost("price", SetPrice);
        models.MapPost("weight", SetWeight);
        models.MapPost("selling", SetSelling);
        models.MapPost("measures", SetMeasures);
    }

    private static Task<IResult> Show(CatalogueStore catalogue, ShopStore shops, CancellationToken cancel) =>
        Page(catalogue, shops, null, null, cancel);

    private static async Task<IResult> Add(
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        var ready = ModelForm.Ready(form, await Currency(shops, cancel));
        var saved = ready.Refusal is { } fault
            ? fault
            : await commands.Save(ready.Value.Key, ready.Value.Wish, OnlyNew, cancel);
        return await After(saved, form, catalogue, shops, cancel);
    }

    private static async Task<IResult> SetPrice(
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        var price = ModelForm.Price(form, await Currency(shops, cancel));
        var saved = price.Refusal is { } fault
            ? fault
            : await Change(
                form,
                catalogue,
                commands,
                model => ModelWish.Of(model, price.Value.Currency) with { Price = price.Value },
                cancel
            );
        return await After(saved, form, catalogue, shops, cancel);
    }

    private static async Task<IResult> SetWeight(
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        var grams = ModelForm.Grams(form);
        var currency = await Currency(shops, cancel);
        var saved = grams.Refusal is { } fault
            ? fault
            : await Change(
                form,
                catalogue,
                commands,
                model => ModelWish.Of(model, currency) with { GramsPerReed = grams.Value },
                cancel
            );
        return await After(saved, form, catalogue, shops, cancel);
    }

    private static async Task<IResult> SetSelling(
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        var currency = await Currency(shops, cancel);
        var saved = await Change(
            form,
            catalogue,
            commands,
            model => ModelWish.Of(model, currency) with { Selling = form.Text("selling") == "yes" },
            cancel
        );
        return await After(saved, form, catalogue, shops, cancel);
    }

    private static async Task<IResult> SetMeasures(
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        if (await catalogue.Find(form.Text("model"), cancel) is not { } model)
        {
            return await After(Refusal.Missing("such model"), form, catalogue, shops, cancel);
        }

        var route = MeasureForm.Read(form, model, await Unit(shops, cancel));
        var currency = await Currency(shops, cancel);
        var saved = route.Refusal is { } fault
            ? fault
            : await commands.Save(
                model.Key,
                ModelWish.Of(model, currency) with
                {
                    Route = route.Value,
                },
                form.SeenVersion(),
                cancel
            );
        return await After(saved, form, catalogue, shops, cancel);
    }

    private static async Task<LengthUnit> Unit(ShopStore shops, CancellationToken cancel) =>
        (await shops.Find(cancel))?.LengthUnit ?? LengthUnit.Millimetre;

    private static async Task<Result<ReedModel>> Change(
        IFormCollection form,
        CatalogueStore catalogue,
        CatalogueCommands commands,
        Func<ReedModel, ModelWish> change,
        CancellationToken cancel
    ) =>
        await catalogue.Find(form.Text("model"), cancel) is { } model
            ? await commands.Save(model.Key, change(model), form.SeenVersion(), cancel)
            : Refusal.Missing("such model");

    private static async Task<string> Currency(ShopStore shops, CancellationToken cancel) =>
        (await shops.Find(cancel))?.Currency ?? "";

    private static async Task<IResult> After(
        Result<ReedModel> saved,
        IFormCollection form,
        CatalogueStore catalogue,
        ShopStore shops,
        CancellationToken cancel
    ) => saved.Refusal is { } refusal ? await Page(catalogue, shops, form, refusal, cancel) : Pages.Go(Address);

    private static async Task<IResult> Page(
        CatalogueStore catalogue,
        ShopStore shops,
        IFormCollection? typed,
        Refusal? refusal,
        CancellationToken cancel
    ) =>
        Pages.Show<ModelsPage>(
            new
            {
                Models = await catalogue.All(cancel),
                Currency = await Currency(shops, cancel),
                Unit = await Unit(shops, cancel),
                Typed = typed,
                Refusal = refusal,
            },
            refusal
        );
}

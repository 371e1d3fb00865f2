using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Shop;

namespace ReedShop.Opening;

/// <summary>Adds what is made, and the cane it is cut from.</summary>
internal static class GoodsSteps
{
    public static async Task<IResult> AddModel(
        IFormCollection form,
        WalkPages pages,
        ShopStore shops,
        CatalogueCommands commands,
        CancellationToken cancel
    )
    {
        var ready = ModelForm.Ready(form, (await shops.Find(cancel))?.Currency ?? "");
        var added = ready.Refusal is { } fault
            ? fault
            : await commands.Save(ready.Value.Key, ready.Value.Wish, CataloguePages.OnlyNew, cancel);
        return await pages.After<WalkModelPage>(WalkStep.Model, form, added.Refusal, cancel);
    }

    public static async Task<IResult> AddCane(
        IFormCollection form,
        WalkPages pages,
        CaneCommands commands,
        CancellationToken cancel
    )
    {
        var wish = CaneForm.Read(form);
        var bought = wish.Refusal is { } fault ? fault : await commands.Buy(wish.Value, cancel);
        return await pages.After<WalkCanePage>(WalkStep.Cane, form, bought.Refusal, cancel);
    }
}

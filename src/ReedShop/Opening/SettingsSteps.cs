using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Opening;

/// <summary>Saves the steps that are settings of the shop.</summary>
internal static class SettingsSteps
{
    public static async Task<IResult> SaveShop(
        IFormCollection form,
        WalkPages pages,
        ShopStore shops,
        ShopCommands commands,
        CancellationToken cancel
    )
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return WalkPages.NoShop();
        }

        var wanted = ShopView.Of(shop) with
        {
            Name = form.Text("name"),
            Email = form.Text("email"),
            Zone = form.Text("zone"),
            Currency = form.Text("currency"),
        };
        var saved = await commands.Save(wanted, form.SeenVersion(), cancel);
        return await pages.After<WalkShopPage>(WalkStep.Shop, form, saved.Refusal, cancel);
    }

    /// <summary>Days away are read before anything is saved, so that a slip in them leaves all as it was.</summary>
    public static async Task<IResult> SaveHours(
        IFormCollection form,
        WalkPages pages,
        ShopStore shops,
        ShopCommands commands,
        DaysOff days,
        CancellationToken cancel
    )
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return WalkPages.NoShop();
        }

        var wanted = Hours(form, shop);
        var away = Away(form);
        var fault = wanted.Refusal ?? (away is null ? null : (await days.Look(away, cancel)).Refusal);
        var refusal = fault ?? (await commands.Save(wanted.Value, form.SeenVersion(), cancel)).Refusal;
        if (refusal is null && away is not null)
        {
            refusal = (await days.Keep(away, VersionChecks.None, cancel)).Refusal;
        }

        return refusal is null && form.Text("more").Length > 0
            ? Pages.Go($"{WalkStep.Hours.Address}#away")
            : await pages.After<WalkHoursPage>(WalkStep.Hours, form, refusal, cancel);
    }

    private static Result<ShopView> Hours(IFormCollection form, ShopSettings shop)
    {
        var hours = ShopForm.Hours(form, "");
        var rack = form.Whole("rackBlanks");
        return (hours.Refusal ?? rack.Refusal) is { } refusal
            ? refusal
            : ShopView.Of(shop) with
            {
                Hours = hours.Value,
                ShipDays = [.. ShopForm.Week.Where(ShopForm.Typed(form).ShipsOn)],
                RackBlanks = rack.Value ?? 0,
                MostBlanksPerBatch = Math.Min(shop.MostBlanksPerBatch, Math.Max(1, rack.Value ?? 0)),
                LengthUnit = ShopForm.Unit(form),
            };
    }

    private static DaysWish? Away(IFormCollection form) =>
        form.Text("first").Length == 0 && form.Text("last").Length == 0 && form.Text("reason").Length == 0
            ? null
            : new DaysWish(form.Text("first"), form.Text("last"), form.Text("reason"));
}

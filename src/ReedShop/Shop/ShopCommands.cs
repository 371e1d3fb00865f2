using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Shop;

/// <summary>Changes of the settings, whichever door they come through.</summary>
public sealed class ShopCommands(FactsGate gate)
{
    public Task<Result<ShopSettings>> Save(ShopView wanted, VersionCheck check, CancellationToken cancel) =>
        gate.Change((services, stop) => Save(services, wanted, check, stop), cancel);

    private static async Task<Result<ShopSettings>> Save(
        IServiceProvider services,
        ShopView wanted,
        VersionCheck check,
        CancellationToken cancel
    )
    {
        var shops = services.GetRequiredService<ShopStore>();
        var shop = await shops.FindForChange(cancel);
        if ((wanted.Fault() ?? (shop is null ? null : check(shop.Version))) is { } refusal)
        {
            return refusal;
        }

        return Open(services, shops, shop, wanted);
    }

    /// <summary>Writes the settings, for the first time or again.</summary>
    internal static ShopSettings Open(IServiceProvider services, ShopStore shops, ShopSettings? shop, ShopView wanted)
    {
        if (shop is null)
        {
            shop = wanted.ToSettings();
            shops.Add(shop);
        }
        else
        {
            wanted.ApplyTo(shop);
        }

        services.GetRequiredService<JournalStore>().Write("owner", "shop", "settings changed");
        return shop;
    }
}

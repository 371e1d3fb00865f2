using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Shop;

/// <summary>
/// Copies the database once a night, by the shop's clock; a service that slept through the hour does so when it wakes.
/// Whether it is done is told by the copy itself, so that no restart forgets it.
/// </summary>
public sealed class NightlyBackup(ShopStore shops, Backups backups, ShopClock clock) : ITick
{
    /// <summary>After the replan of the new day, and before anybody is up.</summary>
    public static readonly TimeOnly At = new(3, 0);

    public async Task Run(CancellationToken cancel)
    {
        if (backups.Kept == 0 || await shops.Find(cancel) is not { } shop)
        {
            return;
        }

        var today = clock.Today(shop.Zone);
        var isDue = clock.NowUtc >= ShopClock.InstantOf(today, At, shop.Zone);
        if (isDue && backups.All().All(backup => backup.Day != today))
        {
            await backups.Make(today, cancel);
        }
    }
}

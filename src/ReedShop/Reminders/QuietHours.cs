using NodaTime.Extensions;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Reminders;

/// <summary>Whether the shop's night has come, by its own clock. A shop that is not set up has none.</summary>
public sealed class QuietHours(ShopStore shops, LetterStore letters, ShopClock clock)
{
    public async Task<bool> AreNow(CancellationToken cancel) =>
        await shops.Find(cancel) is { } shop
        && (await letters.Read(cancel)).IsQuietAt(clock.LocalNow(shop.Zone).TimeOfDay.ToTimeOnly());
}

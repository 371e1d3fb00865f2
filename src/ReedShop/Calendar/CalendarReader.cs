using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Calendar;

/// <summary>Answers whoever has the secret link.</summary>
public sealed class CalendarReader(CalendarStore calendar, ShopStore shops, PublicAddress address, ShopClock clock)
{
    /// <summary>What is over or was cancelled stays so long, for calendars that look rarely.</summary>
    public const int DaysKept = 30;

    /// <summary>The feed, or null where the secret opens none.</summary>
    public async Task<byte[]?> Read(string secret, CancellationToken cancel)
    {
        if (
            await calendar.Find(cancel) is not { } link
            || !link.IsOpenedBy(secret)
            || await shops.Find(cancel) is not { } shop
        )
        {
            return null;
        }

        var since = clock.Today(shop.Zone).AddDays(-DaysKept);
        var entries = await calendar.Published(since, clock.NowUtc.AddDays(-DaysKept), cancel);
        var feed = new CalendarFeed(shop.Name, shop.Zone, link.Realm, PageOf);
        return feed.Write([.. entries.Where(entry => link.WithNights || entry.Content.Kind != EntryKind.Nights)]);
    }

    private string PageOf(DateOnly day) => address.Of($"/bench/today?date={Words.Iso(day)}");
}

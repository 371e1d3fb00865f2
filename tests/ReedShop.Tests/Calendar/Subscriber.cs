using System.Text.RegularExpressions;

namespace ReedShop.Tests.Calendar;

/// <summary>A calendar that subscribes to the plan of a shop, and the minute that brings its feed up to the plan.</summary>
internal static partial class Subscriber
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public static async Task<string> Subscribe(Visitor owner)
    {
        var made = await owner.Post("/bench/calendar");
        Assert.True(made.Headers.CacheControl!.NoStore);
        return Link().Match(await made.Content.ReadAsStringAsync(Cancel)).Value;
    }

    public static async Task<Feed> Read(ShopHost shop, string link) =>
        new(await shop.Guest.GetByteArrayAsync(link, Cancel));

    public static async Task Upkeep(ShopHost shop)
    {
        await shop.Tick("plan-sweep");
        await shop.Tick("keep-calendar");
    }

    [GeneratedRegex("/calendar/[0-9a-f]{32}\\.ics", RegexOptions.None, matchTimeoutMilliseconds: 60_000)]
    private static partial Regex Link();
}

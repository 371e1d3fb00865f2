using System.Text.Json;

namespace ReedShop.Tests.Shop;

/// <summary>
/// A shop that calendar files are sent to: in Lisbon where no other zone is named, with evenings 19:00-21:00 on weekdays
/// and Saturdays 9:00-14:00; it is Monday 2027-03-01.
/// </summary>
internal static class BusyShop
{
    public static async Task<ShopHost> Open(string zone = "Europe/Lisbon")
    {
        var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.SettingsIn(zone));
        return shop;
    }

    public static async Task<string?> Version(ShopHost shop) =>
        (await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken)).Headers.ETag?.Tag;

    public static async Task<string[]> OtherDays(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/shop"))
                .GetProperty("otherDays")
                .EnumerateArray()
                .Select(day =>
                    $"{day.GetProperty("date")} {Hours(day.GetProperty("hours"))} {day.GetProperty("reason")}"
                ),
        ];

    private static string Hours(JsonElement hours) =>
        hours.GetArrayLength() == 0
            ? "closed"
            : string.Join(
                ", ",
                hours.EnumerateArray().Select(open => $"{open.GetProperty("from")}-{open.GetProperty("to")}")
            );
}

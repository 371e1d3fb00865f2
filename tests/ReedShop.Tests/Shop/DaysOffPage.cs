using System.Net;
using System.Text.RegularExpressions;

namespace ReedShop.Tests.Shop;

/// <summary>The page of days off in a shop in Lisbon; it is Monday 2027-03-01.</summary>
internal static partial class DaysOffPage
{
    public const string Address = "/bench/days-off";

    public static async Task<Visitor> Open(ShopHost shop)
    {
        var owner = await Visitor.Owner(shop);
        await shop.PutJson("/api/shop", ExampleShop.Settings, "*");
        return owner;
    }

    public static async Task<string> Read(Visitor owner, string address) =>
        WebUtility.HtmlDecode(await owner.Read(address));

    public static string Version(string page) => VersionField().Match(page).Groups["value"].Value;

    public static async Task<string[]> OtherDays(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/shop"))
                .GetProperty("otherDays")
                .EnumerateArray()
                .Select(day =>
                    $"{day.GetProperty("date")} {day.GetProperty("hours").GetArrayLength()} {day.GetProperty("reason")}"
                ),
        ];

    [GeneratedRegex(
        "name=\"version\" value=\"(?<value>[0-9]+)\"",
        RegexOptions.ExplicitCapture,
        matchTimeoutMilliseconds: 60_000
    )]
    private static partial Regex VersionField();
}

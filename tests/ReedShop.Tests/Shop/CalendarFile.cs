using System.Text;
using System.Text.Json;

namespace ReedShop.Tests.Shop;

/// <summary>Writes calendar files for tests, lines of RFC 5545 between the outer ones, and sends them.</summary>
internal static class CalendarFile
{
    /// <summary>The evening of Wednesday 2027-03-03 and more.</summary>
    public static string Concert => Event("concert", "DTSTART:20270303T183000", "DTEND:20270303T220000");

    /// <summary>The first hour of that evening.</summary>
    public static string Recital => Event("concert", "DTSTART:20270303T190000", "DURATION:PT1H");

    public static string Of(params IEnumerable<string> components) =>
        Lines(["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//invented//for tests//EN", .. components, "END:VCALENDAR"]);

    /// <summary>An event; its UID and summary are the name.</summary>
    public static string Event(string name, params IEnumerable<string> lines) =>
        string.Join(
            "\r\n",
            [
                "BEGIN:VEVENT",
                "DTSTAMP:20270101T000000Z",
                $"UID:{name}@example.org",
                $"SUMMARY:{name}",
                .. lines,
                "END:VEVENT",
            ]
        );

    public static async Task<JsonElement> Look(ShopHost shop, string file) =>
        await ShopHost.Read(await Send(shop, file, "?preview=true"));

    public static async Task<JsonElement> Keep(ShopHost shop, string file, string query = "") =>
        await ShopHost.Read(await Send(shop, file, query));

    public static async Task<HttpResponseMessage> Send(
        ShopHost shop,
        string file,
        string query = "",
        string? ifMatch = null
    )
    {
        using var body = new StringContent(file, Encoding.UTF8, "text/calendar");
        var request = new HttpRequestMessage(HttpMethod.Post, $"/api/shop/busy-times{query}") { Content = body };
        if (ifMatch is not null)
        {
            request.Headers.Add("If-Match", ifMatch);
        }

        return await shop.Owner.SendAsync(request, TestContext.Current.CancellationToken);
    }

    /// <summary>"2027-03-03 19:00-20:00" for each busy time that takes something away.</summary>
    public static string[] Times(JsonElement look) =>
        [
            .. look.GetProperty("times")
                .EnumerateArray()
                .Select(time => $"{time.GetProperty("firstDay")} {time.GetProperty("from")}-{time.GetProperty("to")}"),
        ];

    private static string Lines(IEnumerable<string> lines) => string.Concat(lines.Select(line => $"{line}\r\n"));
}

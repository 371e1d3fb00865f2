using System.Text.Json;
using System.Text.Json.Nodes;

namespace ReedShop.Tests;

/// <summary>Invented zones for shipping: 3.00 up to 50 g and 4.50 up to 100 g at home, 12.00 up to 60 g anywhere else.</summary>
public static class Zones
{
    public const int PackingGrams = 40;

    public static object Home =>
        new
        {
            name = "home",
            countries = new[] { "PT", "ES" },
            bands = Bands(50, 300, 100, 450),
        };

    public static object World =>
        new
        {
            name = "the world",
            countries = Array.Empty<string>(),
            bands = Bands(60, 1200),
        };

    /// <param name="pairs">Grams and price, by turns.</param>
    public static object[] Bands(params int[] pairs) =>
        [.. pairs.Chunk(2).Select(pair => new { upToGrams = pair[0], priceMinor = pair[1] })];

    /// <summary>The settings of the shop as they are, with these zones.</summary>
    public static async Task<JsonNode> With(ShopHost shop, params object[] zones)
    {
        var settings = JsonNode.Parse((await shop.GetJson("/api/shop")).GetRawText())!;
        settings["shipping"] = JsonSerializer.SerializeToNode(new { packingGrams = PackingGrams, zones });
        return settings;
    }

    public static async Task<HttpResponseMessage> Set(ShopHost shop, params object[] zones) =>
        await shop.Send(HttpMethod.Put, "/api/shop", await With(shop, zones), ("If-Match", "*"));

    public static async Task Keep(ShopHost shop, params object[] zones) => await ShopHost.Read(await Set(shop, zones));
}

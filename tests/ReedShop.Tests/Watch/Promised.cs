using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Watch;

/// <summary>Orders and what is done with their promises, through the API.</summary>
internal static class Promised
{
    public static async Task<JsonElement> Order(ShopHost shop, double strength, int quantity)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((strength, quantity)));
        return await shop.PostJson("/api/orders", ExampleReeds.Order(Id(quote)));
    }

    public static string Id(JsonElement thing) => thing.GetProperty("id").GetString()!;

    /// <summary>Moves a promised date as the order stands now.</summary>
    public static async Task<HttpResponseMessage> Move(ShopHost shop, string order, DateOnly to, string? note = null) =>
        await shop.Send(
            HttpMethod.Post,
            $"/api/orders/{order}/move",
            new { shipBy = to, note },
            [("If-Match", await Version(shop, order))]
        );

    public static async Task<string> Version(ShopHost shop, string order) =>
        (await shop.Owner.GetAsync($"/api/orders/{order}", TestContext.Current.CancellationToken)).Headers.ETag!.Tag;

    public static Task<JsonElement> Watched(ShopHost shop, string order) => shop.GetJson($"/api/orders/{order}/watch");

    public static JsonElement[] Rescues(JsonElement watch, string kind) =>
        [
            .. watch
                .GetProperty("rescues")
                .EnumerateArray()
                .Where(rescue => rescue.GetProperty("kind").GetString() == kind),
        ];

    public static double Chance(JsonElement told) => told.GetProperty("chance").GetDouble();

    /// <summary>Loses all but a few blanks of the only batch at its first step.</summary>
    public static async Task LoseAllBut(ShopHost shop, int kept)
    {
        var batch = Assert.Single(await new ExampleMaker(shop).OpenBatches());
        var blanks = (await Workshop.AtTheBench.Batch(shop, batch)).GetProperty("blanks").GetInt32();
        await Workshop.AtTheBench.Record(shop, batch, 1, Workshop.AtTheBench.Kept(kept, ("warp", blanks - kept)));
    }

    public static Task<JsonElement> Stock(ShopHost shop, double strength, int count) =>
        shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength,
                count,
            }
        );

    public static Task<JsonElement> Refused(HttpResponseMessage answer, HttpStatusCode status, string slug) =>
        ShopHost.ReadProblem(answer, status, slug);
}

using System.Text.Json;

namespace ReedShop.Tests.Workshop;

/// <summary>What a maker of clarinet reeds does at the bench and asks of it, through the API.</summary>
internal static class AtTheBench
{
    public static async Task<string> Start(ShopHost shop, int blanks) =>
        (await shop.PostJson("/api/batches", new { model = ExampleReeds.Clarinet, blanks }))
            .GetProperty("id")
            .GetString()!;

    public static object Kept(int passed, params (string Reason, int Count)[] rejected) =>
        new { passed, rejected = rejected.Select(reject => new { reason = reject.Reason, count = reject.Count }) };

    public static Task<JsonElement> Record(ShopHost shop, string batch, int step, object counts) =>
        shop.PostJson($"/api/batches/{batch}/steps/{step}/record", counts);

    public static async Task<JsonElement> Batch(ShopHost shop, string id) =>
        (await shop.GetJson($"/api/batches/{id}")).GetProperty("batch");

    public static async Task<string?> NextDay(ShopHost shop, string batch) =>
        (await shop.GetJson($"/api/batches/{batch}")).GetProperty("planned")[0].GetProperty("date").GetString();
}

using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

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

    /// <summary>What the program does when the bench has been quiet for a moment.</summary>
    public static Task Draw(ShopHost shop) =>
        shop.Within(services => services.GetRequiredService<Outlooks>().Renew(TestContext.Current.CancellationToken));

    /// <summary>Messages of a kind that wait to be sent, oldest first.</summary>
    public static async Task<OutboxMessage[]> Letters(ShopHost shop, string kind) =>
        [
            .. (
                await shop.Within(services =>
                    services.GetRequiredService<OutboxStore>().Undelivered(TestContext.Current.CancellationToken)
                )
            ).Where(message => message.Kind == kind),
        ];

    public static async Task<JsonElement> Batch(ShopHost shop, string id) =>
        (await shop.GetJson($"/api/batches/{id}")).GetProperty("batch");

    public static async Task<string?> NextDay(ShopHost shop, string batch) =>
        (await shop.GetJson($"/api/batches/{batch}")).GetProperty("planned")[0].GetProperty("date").GetString();
}

using System.Text.Json;

namespace ReedShop.Tests.Workshop;

public sealed class AlarmFacts
{
    [Fact]
    public async Task A_batch_made_for_an_order_says_how_many_must_come_to_each_step_and_rings_when_too_few_are_left()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 8)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var batch = Assert.Single((await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray());
        var path = $"/api/batches/{batch.GetProperty("id").GetString()}";
        var started = batch.GetProperty("started").GetInt32();

        var alarms = await Alarms(shop, path);
        var lines = Lines(alarms);
        Assert.Equal(started, lines[0]);
        Assert.Equal(lines.OrderDescending(), lines);
        Assert.True(lines[^1] >= 8);
        Assert.False(alarms.GetProperty("isRung").GetBoolean());
        var page = await owner.Read(path.Replace("/api", "/bench", StringComparison.Ordinal));
        Assert.Contains("Alarm lines", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Too few are left", page, StringComparison.Ordinal);

        var counts = new { passed = 4, rejected = new[] { new { reason = "crack", count = started - 4 } } };
        await shop.PostJson($"{path}/steps/1/record", counts);

        Assert.Equal(4, (await Alarms(shop, path)).GetProperty("alive").GetInt32());
        Assert.True((await Alarms(shop, path)).GetProperty("isRung").GetBoolean());
        Assert.Contains(
            "Too few are left",
            await owner.Read(path.Replace("/api", "/bench", StringComparison.Ordinal)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task A_batch_for_the_drawer_has_no_alarm()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var batch = await shop.PostJson(
            "/api/batches",
            new
            {
                model = ExampleReeds.Clarinet,
                blanks = 10,
                aim = 3.5,
            }
        );
        var story = await shop.GetJson($"/api/batches/{batch.GetProperty("id").GetString()}");
        Assert.False(story.TryGetProperty("alarms", out _));
    }

    private static async Task<JsonElement> Alarms(ShopHost shop, string path) =>
        (await shop.GetJson(path)).GetProperty("alarms");

    private static int[] Lines(JsonElement alarms) =>
        [.. alarms.GetProperty("lines").EnumerateArray().Select(line => line.GetProperty("blanks").GetInt32())];
}

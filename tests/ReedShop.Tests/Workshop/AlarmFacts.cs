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

    /// <summary>Two blanks rock and start over; two others crack when the rest is nearly done.</summary>
    [Fact]
    public async Task Few_blanks_that_walk_again_do_not_ring_for_those_well_on_their_way()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var (run, started) = await Ordered(shop);
        await Record(shop, run, 1, started);
        await Record(shop, run, 2, started);
        await Record(shop, run, 3, started - 2, redo: 2);
        foreach (var step in new[] { 4, 5, 6 })
        {
            await Record(shop, run, step, started - 2);
        }

        await Record(shop, run, 7, started - 4, cracked: 2);

        var alarms = await Alarms(shop, $"/api/batches/{run}");
        Assert.Equal(started - 2, alarms.GetProperty("alive").GetInt32());
        Assert.False(alarms.GetProperty("isRung").GetBoolean());
    }

    [Fact]
    public async Task Blanks_that_all_walk_again_are_held_to_what_their_batch_was_started_with()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var (run, started) = await Ordered(shop);
        await Record(shop, run, 1, started);
        await Record(shop, run, 2, started);

        await Record(shop, run, 3, 0, redo: 8, cracked: started - 8);

        var trays = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        var tray = trays.Single(batch => batch.GetProperty("blanks").GetInt32() == 8).GetProperty("id").GetString();
        Assert.True((await Alarms(shop, $"/api/batches/{tray}")).GetProperty("isRung").GetBoolean());
    }

    private static async Task<(string Run, int Started)> Ordered(ShopHost shop)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 8)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var batch = Assert.Single((await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray());
        return (batch.GetProperty("id").GetString()!, batch.GetProperty("started").GetInt32());
    }

    private static Task<JsonElement> Record(
        ShopHost shop,
        string run,
        int step,
        int passed,
        int redo = 0,
        int cracked = 0
    ) =>
        shop.PostJson(
            $"/api/batches/{run}/steps/{step}/record",
            new
            {
                passed,
                redo,
                rejected = cracked == 0 ? [] : new[] { new { reason = "crack", count = cracked } },
            }
        );

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

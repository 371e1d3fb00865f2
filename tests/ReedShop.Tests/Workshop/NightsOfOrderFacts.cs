using System.Text.Json;

namespace ReedShop.Tests.Workshop;

/// <summary>A ready clarinet route from cane: two nights before the shelf, two after the clip and the first playing.</summary>
public sealed class NightsOfOrderFacts
{
    [Fact]
    public async Task Nights_done_and_to_go_follow_the_bench()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3, 2)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        var id = order.GetProperty("id").GetString()!;
        var batch = (await shop.GetJson("/api/batches")).GetProperty("items")[0];
        Assert.Equal((0, 4), await Nights(shop, id));

        shop.Time.SetUtcNow(ShopHost.Monday.AddDays(1).AddHours(20));
        var blanks = batch.GetProperty("blanks").GetInt32();
        await AtTheBench.Record(shop, batch.GetProperty("id").GetString()!, 1, AtTheBench.Kept(blanks));
        await AtTheBench.Record(shop, batch.GetProperty("id").GetString()!, 2, AtTheBench.Kept(blanks));
        Assert.Equal((0, 4), await Nights(shop, id));

        shop.Time.SetUtcNow(ShopHost.Monday.AddDays(2).AddHours(20));
        Assert.Equal((1, 3), await Nights(shop, id));
    }

    [Fact]
    public async Task Reeds_from_the_drawer_have_no_nights()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3,
                condition = "tested",
                count = 5,
            }
        );
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3, 2)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));

        var seen = await shop.GetJson($"/api/orders/{order.GetProperty("id").GetString()}");

        Assert.False(seen.TryGetProperty("nights", out _));
    }

    private static async Task<(int Done, int ToGo)> Nights(ShopHost shop, string order)
    {
        var nights = (await shop.GetJson($"/api/orders/{order}")).GetProperty("nights");
        return (nights.GetProperty("done").GetInt32(), nights.GetProperty("toGo").GetInt32());
    }
}

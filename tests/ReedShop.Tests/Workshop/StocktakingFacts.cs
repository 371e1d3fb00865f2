namespace ReedShop.Tests.Workshop;

public sealed class StocktakingFacts
{
    [Fact]
    public async Task Reeds_that_are_missing_from_the_drawer_are_made_again_for_the_latest_promise()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 4,
            }
        );
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        Assert.Equal("ready", order.GetProperty("status").GetString());

        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 3,
            }
        );

        var now = await shop.GetJson($"/api/orders/{order.GetProperty("id").GetString()}");
        Assert.Equal("accepted", now.GetProperty("status").GetString());
        Assert.NotEmpty((await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray());
    }
}

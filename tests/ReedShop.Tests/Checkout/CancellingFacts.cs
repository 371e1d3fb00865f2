namespace ReedShop.Tests.Checkout;

public sealed class CancellingFacts
{
    [Fact]
    public async Task Cancelling_gives_back_the_cane_and_leaves_the_makers_own_batches()
    {
        await using var shop = await ExampleReeds.ShopWithHistory(caneBlanks: 400);
        var own = new
        {
            model = ExampleReeds.Clarinet,
            blanks = 8,
            aim = 3.5,
        };
        await shop.PostJson("/api/batches", own);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((4, 3)));
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        Assert.True(await CaneLeft(shop) < 392);

        await shop.PostJson($"/api/orders/{order.GetProperty("id").GetString()}/cancel", new { });

        Assert.Equal(392, await CaneLeft(shop));
        var batches = (await shop.GetJson("/api/batches")).GetProperty("items").EnumerateArray();
        Assert.Single(batches, batch => batch.GetProperty("stage").GetString() == "planned");
    }

    private static async Task<int> CaneLeft(ShopHost shop) =>
        (await shop.GetJson("/api/cane"))[0].GetProperty("blanksLeft").GetInt32();
}

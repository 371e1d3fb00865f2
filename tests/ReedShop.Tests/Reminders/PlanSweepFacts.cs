namespace ReedShop.Tests.Reminders;

public sealed class PlanSweepFacts
{
    [Fact]
    public async Task What_an_evening_left_undone_moves_to_the_next()
    {
        await using var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        var batch = await ExampleShop.StartTenBlanks(shop);
        Assert.Equal("2027-03-01", await FirstSitting(shop, batch));

        shop.Time.Advance(TimeSpan.FromDays(1));
        await shop.Tick("plan-sweep");

        Assert.Equal("2027-03-02", await FirstSitting(shop, batch));
    }

    private static async Task<string?> FirstSitting(ShopHost shop, string batch)
    {
        var story = await shop.GetJson($"/api/batches/{batch}");
        return story.GetProperty("planned")[0].GetProperty("date").GetString();
    }
}

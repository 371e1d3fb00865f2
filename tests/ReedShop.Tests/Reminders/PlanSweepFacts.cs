using NodaTime;

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

    /// <summary>UTC's midnight is at eleven in the morning on Lord Howe in March, and at seven in the evening in New York.</summary>
    [Theory]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("America/New_York")]
    public async Task It_moves_at_the_midnight_of_the_shop(string zone)
    {
        await using var shop = await ShopHost.Start(At(zone, 1, 9, 0));
        await shop.PutJson("/api/shop", ExampleShop.OpenDailyIn(zone, "07:00"));
        var batch = await ExampleShop.StartTenBlanks(shop);
        foreach (var (hour, minute) in new[] { (10, 59), (11, 1), (18, 59), (19, 1), (23, 59) })
        {
            shop.Time.SetUtcNow(At(zone, 1, hour, minute));
            await shop.Tick("plan-sweep");
            Assert.Equal("2027-03-01", await FirstSitting(shop, batch));
        }

        shop.Time.SetUtcNow(At(zone, 2, 0, 1));
        Assert.Equal("2027-03-01", await FirstSitting(shop, batch));
        await shop.Tick("plan-sweep");

        Assert.Equal("2027-03-02", await FirstSitting(shop, batch));
    }

    private static DateTimeOffset At(string zone, int dayOfMarch, int hour, int minute) =>
        DateTimeZoneProviders
            .Tzdb[zone]
            .AtStrictly(new LocalDateTime(2027, 3, dayOfMarch, hour, minute))
            .ToInstant()
            .ToDateTimeOffset();

    private static async Task<string?> FirstSitting(ShopHost shop, string batch)
    {
        var story = await shop.GetJson($"/api/batches/{batch}");
        return story.GetProperty("planned")[0].GetProperty("date").GetString();
    }
}

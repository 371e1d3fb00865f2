using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>Evenings from 19:00 to 21:00, Saturdays from 9:00; blanks are flattened, rest a night and are played in.</summary>
public sealed class RestAndTiringFacts
{
    private static readonly DateTimeOffset Friday = new(2027, 3, 5, 18, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(12, "2027-03-05", "2027-03-06")]
    [InlineData(13, "2027-03-06", "2027-03-08")]
    public async Task A_night_from_Friday_evening_to_Saturday_morning_may_be_too_short(
        int leastHours,
        string flattened,
        string playedIn
    )
    {
        await using var shop = await Selling(leastHours, mostPerDay: null);

        await Start(shop);

        Assert.Equal([flattened, playedIn], await Dates(shop));
    }

    [Fact]
    public async Task Blanks_laid_out_on_Friday_wait_for_Monday_too_where_Saturday_comes_too_soon()
    {
        await using var shop = await Selling(leastHours: 13, mostPerDay: null);
        var batch = await Start(shop);

        await Record(shop, batch, 1, Kept(6));

        Assert.Equal(["2027-03-08"], await Dates(shop));
    }

    [Fact]
    public async Task Lips_last_for_so_many_reeds_a_day_whichever_batch_they_are_of()
    {
        await using var shop = await Selling(leastHours: 12, mostPerDay: 8);

        await Start(shop);
        await Start(shop);

        Assert.Equal(["2027-03-05", "2027-03-06", "2027-03-06", "2027-03-08"], await Dates(shop));
    }

    [Fact]
    public async Task Reeds_played_in_today_leave_fewer_for_this_evening()
    {
        await using var shop = await Selling(leastHours: 12, mostPerDay: 8);
        var first = await Start(shop);
        await Record(shop, first, 1, Kept(6));
        var second = await Start(shop);
        await Record(shop, second, 1, Kept(6));
        shop.Time.SetUtcNow(Friday.AddHours(16));

        await Record(shop, first, 2, Kept(6));

        // The first is still to be graded today, which tires nobody.
        Assert.Equal(["2027-03-06"], await Dates(shop, first));
        Assert.Equal(["2027-03-08"], await Dates(shop, second));
    }

    /// <summary>All six go back to the mouthpiece another day, noted down with no minutes at all.</summary>
    [Fact]
    public async Task Reeds_that_must_all_be_played_in_again_have_tired_the_lips_too()
    {
        await using var shop = await Selling(leastHours: 12, mostPerDay: 8);
        var first = await Start(shop);
        await Record(shop, first, 1, Kept(6));
        var second = await Start(shop);
        await Record(shop, second, 1, Kept(6));
        shop.Time.SetUtcNow(Friday.AddHours(16));

        await Record(
            shop,
            first,
            2,
            new
            {
                passed = 0,
                redo = 6,
                minutes = 0,
                rejected = Array.Empty<object>(),
            }
        );

        Assert.DoesNotContain("2027-03-06", await Dates(shop));
    }

    private static async Task<ShopHost> Selling(int leastHours, int? mostPerDay)
    {
        var shop = await ShopHost.Start(Friday);
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await shop.PutJson("/api/models/clarinet", Model(leastHours, mostPerDay));
        await shop.PostJson("/api/cane", ExampleShop.Cane);
        return shop;
    }

    private static async Task<string> Start(ShopHost shop)
    {
        var order = new
        {
            model = "clarinet",
            blanks = 6,
            aim = 3.5,
        };
        return (await shop.PostJson("/api/batches", order)).GetProperty("id").GetString()!;
    }

    private static async Task<string?[]> Dates(ShopHost shop, string? batch = null) =>
        [
            .. from week in new[]
            {
                await shop.GetJson("/api/week?from=2027-03-01"),
                await shop.GetJson("/api/week?from=2027-03-08"),
            }
            from day in week.GetProperty("days").EnumerateArray()
            from sitting in day.GetProperty("sittings").EnumerateArray()
            where batch is null || sitting.GetProperty("batch").GetString() == batch
            select sitting.GetProperty("date").GetString(),
        ];

    private static object Model(int leastHours, int? mostPerDay) =>
        ExampleModel.Of(
            ExampleModel.Step("flatten", 60, "plate", dry: ExampleModel.Night(leastHours), check: "counted"),
            ExampleModel.Step("play in", 60, "mouthpiece", mostPerDay: mostPerDay, check: "counted"),
            ExampleModel.Step("grade", 10, "mouthpiece", check: "graded")
        );
}

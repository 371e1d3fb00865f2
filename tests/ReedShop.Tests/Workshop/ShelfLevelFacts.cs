using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Workshop;

public sealed class ShelfLevelFacts
{
    [Fact]
    public async Task A_shop_without_orders_keeps_no_shelf_and_says_why()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        var level = await Level(shop);
        Assert.Equal((0, 0), (Of(level, "level"), Of(level, "orders")));
        Assert.Contains("There was no order yet", await owner.Read("/bench/drawer"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Orders_raise_the_level_and_the_run_that_fills_it_is_started_from_the_page()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var owner = await Visitor.Owner(shop);
        foreach (var quantity in new[] { 4, 6 })
        {
            var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, quantity)));
            await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        }

        var level = await Level(shop);
        Assert.Equal(2, Of(level, "orders"));
        Assert.InRange(Of(level, "level"), 6, 60);
        Assert.True(level.GetProperty("chance").GetDouble() >= 0.9);
        Assert.Equal(Of(level, "level"), Of(level, "short"));
        var prepare = level.GetProperty("prepare");
        Assert.True(Of(prepare, "blanks") >= 1);
        var evenings = prepare.GetProperty("evenings").EnumerateArray().Select(Day).ToArray();
        Assert.NotEmpty(evenings);
        Assert.All(evenings, day => Assert.True(day > new DateOnly(2027, 3, 1)));

        var started = await owner.PostFrom(
            "/bench/drawer",
            "/bench/batches",
            ("model", ExampleReeds.Clarinet),
            ("blanks", $"{Of(prepare, "blanks")}"),
            ("aim", ""),
            ("caneLot", prepare.GetProperty("caneLot").GetString()!)
        );

        Assert.Equal(HttpStatusCode.SeeOther, started.StatusCode);
        var after = await Level(shop);
        Assert.True(Of(after, "inPreparation") > 0);
        Assert.True(Of(after, "short") < Of(level, "short"));
    }

    [Fact]
    public async Task A_full_shelf_needs_nothing()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 4)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        await shop.PostJson(
            "/api/shelf/count",
            new
            {
                model = ExampleReeds.Clarinet,
                caneLot = ExampleReeds.KindLot,
                count = 200,
            }
        );
        var level = await Level(shop);
        Assert.Equal((200, 0), (Of(level, "onShelf"), Of(level, "short")));
        Assert.False(level.TryGetProperty("prepare", out _));
    }

    private static async Task<JsonElement> Level(ShopHost shop) =>
        Assert.Single((await shop.GetJson("/api/shelf/levels")).EnumerateArray());

    private static int Of(JsonElement level, string name) => level.GetProperty(name).GetInt32();

    private static DateOnly Day(JsonElement day) =>
        DateOnly.ParseExact(day.GetString()!, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);
}

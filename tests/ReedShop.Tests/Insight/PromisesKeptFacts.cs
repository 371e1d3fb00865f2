using System.Text.Json;

namespace ReedShop.Tests.Insight;

/// <summary>Two orders from the drawer: one parcel leaves, the other does not.</summary>
public sealed class PromisesKeptFacts
{
    private const string Page = "/bench/promises";

    [Fact]
    public async Task What_was_told_stands_against_what_was_kept_once_the_promised_day_has_passed()
    {
        await using var shop = await ExampleReeds.NewShop();
        await Stock(shop, 4);
        var shipped = await Order(shop);
        var forgotten = await Order(shop);
        await shop.PostJson($"/api/orders/{shipped.GetProperty("id").GetString()}/ship", new { });
        Assert.Equal(0, All(await shop.GetJson("/api/promises-kept")).GetProperty("promises").GetInt32());

        var due = ExampleMaker.Day(forgotten, "shipBy");
        shop.Time.SetUtcNow(new DateTimeOffset(due.AddDays(1), new TimeOnly(9, 0), TimeSpan.Zero));

        var kept = All(await shop.GetJson("/api/promises-kept"));
        Assert.Equal(2, kept.GetProperty("promises").GetInt32());
        Assert.Equal(1, kept.GetProperty("kept").GetInt32());
        Assert.Equal(0.99, kept.GetProperty("stated").GetDouble(), 9);
        Assert.False(kept.GetProperty("agreesWithStated").GetBoolean());
    }

    [Fact]
    public async Task The_page_says_what_to_do_while_no_promise_has_come_due_and_then_what_was_kept()
    {
        await using var shop = await ExampleReeds.NewShop();
        using var owner = await Visitor.Owner(shop);
        Assert.Contains("No promise has come due yet", await owner.Read(Page), StringComparison.Ordinal);
        await Stock(shop, 2);
        var order = await Order(shop);
        await shop.PostJson($"/api/orders/{order.GetProperty("id").GetString()}/ship", new { });

        var due = ExampleMaker.Day(order, "shipBy");
        shop.Time.SetUtcNow(new DateTimeOffset(due.AddDays(1), new TimeOnly(9, 0), TimeSpan.Zero));

        var page = await owner.Read(Page);
        Assert.Contains("1 promise of 1 kept", page, StringComparison.Ordinal);
        Assert.Contains("within what chance allows", page, StringComparison.Ordinal);
    }

    private static JsonElement All(JsonElement record) => record.GetProperty("all");

    private static Task<JsonElement> Stock(ShopHost shop, int reeds) =>
        shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                condition = "tested",
                count = reeds,
            }
        );

    private static async Task<JsonElement> Order(ShopHost shop)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        return await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
    }
}

using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Workshop;
using Xunit;
using static ReedShop.Tests.Workshop.AtTheBench;

namespace ReedShop.Tests.Workshop;

/// <summary>The chances of open promises, as the bench goes on.</summary>
public sealed class OutlookFacts
{
    [Fact]
    public async Task A_new_promise_stands_about_as_it_was_told()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var order = await Order(shop, 3);

        await Draw(shop);

        var outlook = Assert.Single((await shop.GetJson("/api/outlook")).EnumerateArray());
        Assert.Equal(order.GetProperty("id").GetString(), outlook.GetProperty("order").GetString());
        Assert.True(outlook.GetProperty("isFresh").GetBoolean());
        Assert.Equal(Chance(order), Chance(outlook), 0.04);
        Assert.True(ExampleMaker.Day(outlook, "likelyShipDay") <= ExampleMaker.Day(order, "shipBy"));
    }

    [Fact]
    public async Task Blanks_lost_lower_the_chance_and_the_orders_page_says_so()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, 3);
        await Draw(shop);
        var before = Chance(Assert.Single((await shop.GetJson("/api/outlook")).EnumerateArray()));
        var batch = Assert.Single(await new ExampleMaker(shop).OpenBatches());
        var blanks = (await shop.GetJson($"/api/batches/{batch}"))
            .GetProperty("batch")
            .GetProperty("blanks")
            .GetInt32();

        await shop.PostJson(
            $"/api/batches/{batch}/steps/1/record",
            new { passed = 4, rejected = new[] { new { reason = "warp", count = blanks - 4 } } }
        );

        var stale = Assert.Single((await shop.GetJson("/api/outlook")).EnumerateArray());
        Assert.False(stale.GetProperty("isFresh").GetBoolean());
        await Draw(shop);
        var after = Chance(Assert.Single((await shop.GetJson("/api/outlook")).EnumerateArray()));
        Assert.True(after < before - 0.2, $"{before} {after}");
        using var owner = await Visitor.Owner(shop);
        var page = await owner.Read("/bench/orders");
        Assert.Contains("when late, mostly for too few reeds of the strength", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_forecast_under_way_is_left_when_facts_change_again()
    {
        var signal = new OutlookSignal();
        signal.Raise();
        var first = await signal.Wait(TestContext.Current.CancellationToken);
        Assert.False(first.IsCancellationRequested);

        signal.Raise();

        Assert.True(first.IsCancellationRequested);
        var second = await signal.Wait(TestContext.Current.CancellationToken);
        Assert.False(second.IsCancellationRequested);
    }

    private static async Task<JsonElement> Order(ShopHost shop, int quantity)
    {
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, quantity)));
        return await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
    }

    private static double Chance(JsonElement told) => told.GetProperty("chance").GetDouble();
}

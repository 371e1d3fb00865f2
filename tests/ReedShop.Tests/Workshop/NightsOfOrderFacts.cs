using System.Net;
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

        using var buyer = new HttpClient { BaseAddress = shop.Address };
        buyer.DefaultRequestHeaders.Add("Accept-Language", "de-DE");
        var page = WebUtility.HtmlDecode(
            await buyer.GetStringAsync($"/orders/{id}", TestContext.Current.CancellationToken)
        );
        Assert.Contains("Trockennächte: 1 von 4 geschafft", page, StringComparison.Ordinal);
        Assert.Contains("Was wir Ihnen geschrieben haben", page, StringComparison.Ordinal);
        Assert.Contains("thank you for your order", page, StringComparison.Ordinal);
    }

    /// <summary>So many reeds that lips last for a part of them on one evening: its nights are not nights of drying.</summary>
    [Fact]
    public async Task A_quote_tells_the_nights_that_the_page_of_its_order_counts()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3, 8)));
        Assert.True(quote.GetProperty("lines")[0].GetProperty("blanks").GetInt32() > 12);

        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));

        Assert.Equal((0, 4), await Nights(shop, order.GetProperty("id").GetString()!));
        Assert.Contains(
            quote.GetProperty("because").EnumerateArray(),
            reason => reason.GetString()!.StartsWith("Its blanks dry for 4 nights at least;", StringComparison.Ordinal)
        );
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

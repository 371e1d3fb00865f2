using System.Text.Json;

namespace ReedShop.Tests.Checkout;

/// <summary>
/// One order is promised, and the maker has started six batches for the drawer, which nobody waits for and which fill
/// the evenings of the next weeks.
/// </summary>
public sealed class MakingWayFacts
{
    private const string MakesWay = "other work moves to other evenings";

    [Fact]
    public async Task A_quote_for_which_others_make_way_is_kept_when_it_is_ordered_and_no_promise_becomes_late()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await Order(shop, await Quote(shop, 3, 4));
        for (var batch = 0; batch < 6; batch++)
        {
            await shop.PostJson(
                "/api/batches",
                new
                {
                    model = ExampleReeds.Clarinet,
                    blanks = 24,
                    aim = 2.5,
                }
            );
        }

        var quote = await Quote(shop, 4, 3);
        var order = await Order(shop, quote);

        Assert.Contains(
            quote.GetProperty("because").EnumerateArray(),
            reason => reason.GetString()!.Contains(MakesWay, StringComparison.Ordinal)
        );
        Assert.Equal(ExampleMaker.Day(quote, "shipBy"), ExampleMaker.Day(order, "shipBy"));
        await new ExampleMaker(shop).SittingsFrom(new DateOnly(2027, 3, 1), weeks: 8);
        Assert.Equal(["on time", "on time"], await Promises(shop));
    }

    private static Task<JsonElement> Quote(ShopHost shop, double strength, int quantity) =>
        shop.PostJson("/api/quotes", ExampleReeds.Lines((strength, quantity)));

    private static Task<JsonElement> Order(ShopHost shop, JsonElement quote) =>
        shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));

    private static async Task<string[]> Promises(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/week?from=2027-03-01"))
                .GetProperty("batches")
                .EnumerateArray()
                .Where(batch => batch.TryGetProperty("promise", out _))
                .Select(batch => batch.GetProperty("promise").GetString()!),
        ];
}

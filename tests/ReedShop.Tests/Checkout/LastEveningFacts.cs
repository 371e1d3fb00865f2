using System.Globalization;
using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Checkout;

public sealed class LastEveningFacts
{
    private const int Buyers = 64;
    private const int Rounds = 20;
    private const int RackBlanks = 20;
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>
    /// The rack holds one batch only, and five reeds more are beyond what the first batch can be expected to spare, so
    /// whoever comes second must wait until the first has left the rack.
    /// </summary>
    [Fact]
    public async Task Two_buyers_never_get_the_same_evening()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        await LeaveRoomForOneBatch(shop);
        for (var round = 0; round < Rounds; round++)
        {
            var quotes = await Task.WhenAll(Enumerable.Range(0, Buyers).Select(_ => Quote(shop)));
            var shipBy = Assert.Single(quotes.Select(quote => ShipBy(quote)).Distinct());
            var answers = await Task.WhenAll(quotes.Select((quote, buyer) => Take(shop, quote, buyer)));

            var won = Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Created);
            foreach (var lost in answers.Where(answer => answer != won))
            {
                var problem = await ShopHost.ReadProblem(lost, HttpStatusCode.Conflict, "promise-gone");
                Assert.True(ShipBy(problem.GetProperty("quote")) > shipBy);
                Assert.NotEqual("", problem.GetProperty("quote").GetProperty("id").GetString());
            }

            await NoDayIsOverfilled(shop);
            var order = await ShopHost.Read(won);
            await shop.PostJson($"/api/orders/{order.GetProperty("id").GetString()}/cancel", new { });
        }
    }

    internal static async Task LeaveRoomForOneBatch(ShopHost shop)
    {
        var answer = await shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        var settings = JsonSerializer.Deserialize<Dictionary<string, object>>(
            await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)
        )!;
        settings["rackBlanks"] = RackBlanks;
        settings["mostBlanksPerBatch"] = RackBlanks;
        settings["shipDays"] = new[] { "monday" };
        await shop.PutJson("/api/shop", settings, answer.Headers.ETag!.Tag);
    }

    private static async Task<JsonElement> Quote(ShopHost shop) =>
        await ShopHost.Read(await Send(shop, "/api/quotes", ExampleReeds.Lines((3.5, 5))));

    private static Task<HttpResponseMessage> Take(ShopHost shop, JsonElement quote, int buyer) =>
        Send(shop, "/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!, $"Buyer {buyer}"));

    /// <summary>More buyers come than the shop lets wait: whom it sends away as busy comes back when told.</summary>
    private static async Task<HttpResponseMessage> Send(ShopHost shop, string path, object body)
    {
        using var end = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        end.CancelAfter(Patience);
        while (true)
        {
            var answer = await ShopHost.Send(shop.Guest, HttpMethod.Post, path, body);
            if (answer.StatusCode != HttpStatusCode.ServiceUnavailable)
            {
                return answer;
            }

            await Task.Delay(answer.Headers.RetryAfter!.Delta!.Value, end.Token);
        }
    }

    private static DateOnly ShipBy(JsonElement quote) =>
        DateOnly.ParseExact(quote.GetProperty("shipBy").GetString()!, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static async Task NoDayIsOverfilled(ShopHost shop)
    {
        for (var week = new DateOnly(2027, 3, 1); week < new DateOnly(2027, 5, 1); week = week.AddDays(7))
        {
            var view = await shop.GetJson($"/api/week?from={week:yyyy-MM-dd}");
            foreach (var day in view.GetProperty("days").EnumerateArray())
            {
                Assert.True(
                    day.GetProperty("plannedMinutes").GetInt32() <= day.GetProperty("openMinutes").GetInt32(),
                    day.ToString()
                );
                Assert.True(
                    day.GetProperty("drying").EnumerateArray().Sum(batch => batch.GetProperty("blanks").GetInt32())
                        <= RackBlanks
                );
            }
        }
    }
}

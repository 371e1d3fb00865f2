using System.Net;

namespace ReedShop.Tests.Checkout;

public sealed class SmokeFacts
{
    [Fact]
    public async Task A_quote_is_taken_and_ships()
    {
        await using var shop = await ExampleReeds.OpenShop();
        var quote = await shop.PostJson(
            "/api/quotes",
            new { lines = new[] { new { model = "clarinet", strength = 3.5, quantity = 10 } } }
        );
        TestContext.Current.TestOutputHelper!.WriteLine(quote.ToString());
        var order = await shop.PostJson(
            "/api/orders",
            new
            {
                quoteId = quote.GetProperty("id").GetString(),
                buyer = new { name = "Ana Example", email = "ana@example.org" },
                address = new
                {
                    street = "1 Quay",
                    locality = "Harbour",
                    postalCode = "1000-001",
                    country = "PT",
                },
            }
        );
        TestContext.Current.TestOutputHelper!.WriteLine(order.ToString());
        TestContext.Current.TestOutputHelper!.WriteLine((await shop.GetJson("/api/week")).ToString());
        TestContext.Current.TestOutputHelper!.WriteLine((await shop.GetJson("/api/batches")).ToString());
        TestContext.Current.TestOutputHelper!.WriteLine((await shop.GetJson("/api/yields")).ToString());
    }
}

using System.Text.Json;

namespace ReedShop.Tests;

/// <summary>The whole way, over HTTP, on a real database, with a clock the test moves.</summary>
public sealed class JourneyFacts
{
    [Fact]
    public async Task From_the_imported_history_to_the_parcel()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 10), (4, 2)));
        Print($"{watch.ElapsedMilliseconds} ms");
        Print(quote);
        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));
        Print(order);
        Print(await shop.GetJson("/api/week"));
        Print(await shop.GetJson("/api/batches"));
        Print(await shop.GetJson("/api/yields"));
    }

    private static void Print(object what) => TestContext.Current.TestOutputHelper!.WriteLine(what.ToString()!);
}

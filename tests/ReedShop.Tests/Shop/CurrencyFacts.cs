using System.Net;

namespace ReedShop.Tests.Shop;

public sealed class CurrencyFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("XQX")]
    [InlineData("eur")]
    [InlineData("EURO")]
    [InlineData("")]
    public async Task A_currency_that_is_in_use_nowhere_is_not_taken(string currency)
    {
        await using var shop = await ShopHost.Start();

        var problem = await ShopHost.ReadProblem(
            await Save(shop, currency, version: null),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );

        Assert.Equal("currency", problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task The_currency_is_changed_until_somebody_has_ordered()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        Assert.Equal(HttpStatusCode.OK, (await Save(shop, "USD", await Version(shop))).StatusCode);
        Assert.Equal(HttpStatusCode.OK, (await Save(shop, "EUR", await Version(shop))).StatusCode);
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));

        var problem = await ShopHost.ReadProblem(
            await Save(shop, "USD", await Version(shop)),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );

        Assert.Equal("EUR", problem.GetProperty("allowed").GetString());
        Assert.Equal("EUR", (await shop.GetJson("/api/shop")).GetProperty("currency").GetString());
        Assert.Equal(HttpStatusCode.OK, (await Save(shop, "EUR", await Version(shop))).StatusCode);
    }

    [Fact]
    public async Task A_price_told_in_the_currency_of_before_is_not_ordered()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        Assert.Equal(HttpStatusCode.OK, (await Save(shop, "USD", await Version(shop))).StatusCode);

        var answer = await shop.Send(
            HttpMethod.Post,
            "/api/orders",
            ExampleReeds.Order(quote.GetProperty("id").GetString()!)
        );

        await ShopHost.ReadProblem(answer, HttpStatusCode.Conflict, "wrong-stage");
    }

    private static async Task<string> Version(ShopHost shop)
    {
        using var answer = await shop.Owner.GetAsync("/api/shop", Cancel);
        return answer.Headers.ETag!.Tag;
    }

    private static Task<HttpResponseMessage> Save(ShopHost shop, string currency, string? version)
    {
        var settings = ExampleShop.With();
        settings["currency"] = currency;
        return shop.Send(HttpMethod.Put, "/api/shop", settings, version is null ? [] : [("If-Match", version)]);
    }
}

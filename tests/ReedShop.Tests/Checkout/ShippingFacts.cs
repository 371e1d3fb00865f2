using System.Net;
using System.Text.Json;
using ReedShop.Tests.Payments;

namespace ReedShop.Tests.Checkout;

/// <summary>
/// Shipping by zone and weight. A reed is 3.50 and 2 g, packing 40 g: two reeds are 44 g, six are 52 g.
/// </summary>
public sealed class ShippingFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(2, "PT", 300)]
    [InlineData(6, "Portugal", 450)]
    [InlineData(2, "jp", 1200)]
    public async Task A_quote_tells_reeds_shipping_and_total(int reeds, string country, int shipping)
    {
        await using var shop = await Open();

        var quote = await shop.PostJson("/api/quotes", Wish(reeds, country));

        Assert.Equal(reeds * 350, Amount(quote, "reeds"));
        Assert.Equal(shipping, Amount(quote, "shipping"));
        Assert.Equal((reeds * 350) + shipping, Amount(quote, "total"));
        Assert.Equal((reeds * 350) + shipping, quote.GetProperty("price").GetProperty("amount").GetInt32());
    }

    [Fact]
    public async Task Without_zones_shipping_is_in_the_price_and_no_country_matters()
    {
        await using var shop = await ExampleReeds.NewShop();

        var quote = await shop.PostJson("/api/quotes", Wish(2, "Atlantis"));
        var order = await Accept(shop, quote, "ES");

        Assert.Equal(700, Amount(quote, "total"));
        Assert.False(quote.GetProperty("parts").TryGetProperty("shipping", out _));
        Assert.False(quote.TryGetProperty("country", out _));
        Assert.Equal(700, Amount(await ShopHost.Read(order), "total"));
    }

    [Theory]
    [InlineData(2, null, "country", "Portugal")]
    [InlineData(2, "Atlantis", "country", "Portugal")]
    [InlineData(2, "JP", "country", "Portugal")]
    [InlineData(31, "PT", "lines", "100 g")]
    public async Task A_country_of_no_zone_and_a_parcel_too_heavy_are_refused_with_what_is_accepted(
        int reeds,
        string? country,
        string field,
        string accepted
    )
    {
        await using var shop = await Open(Zones.Home);

        var answer = await ShopHost.Send(shop.Guest, HttpMethod.Post, "/api/quotes", Wish(reeds, country));

        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal(field, problem.GetProperty("field").GetString());
        Assert.Contains(
            accepted.Replace("Portugal", "PT, ES", StringComparison.Ordinal),
            problem.GetProperty("allowed").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_price_a_quote_told_holds_and_its_country_too()
    {
        await using var shop = await Open();
        var quote = await shop.PostJson("/api/quotes", Wish(2, "PT"));
        await Zones.Keep(
            shop,
            new
            {
                name = "home",
                countries = new[] { "ES" },
                bands = Zones.Bands(50, 900),
            }
        );

        var elsewhere = await Accept(shop, quote, "ES");
        var problem = await ShopHost.ReadProblem(elsewhere, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("address.country", problem.GetProperty("field").GetString());
        Assert.StartsWith("PT,", problem.GetProperty("allowed").GetString(), StringComparison.Ordinal);

        var order = await ShopHost.Read(await Accept(shop, quote, "portugal"));
        Assert.Equal(1000, Amount(order, "total"));
        Assert.Equal(300, Amount(order, "shipping"));
    }

    [Fact]
    public async Task Order_page_receipt_letter_and_invoice_tell_the_shipping()
    {
        await using var shop = await Open();
        var quote = await shop.PostJson("/api/quotes", Wish(2, "PT"));
        var order = await ShopHost.Read(await Accept(shop, quote, "PT"));
        var page = $"/orders/{PayingShop.Id(order)}";
        using var buyer = new Visitor(shop);

        Assert.Contains("<dt>Shipping</dt><dd>€3.00</dd>", await Text(buyer, page), StringComparison.Ordinal);
        var receipt = await Text(buyer, $"{page}/receipt");
        Assert.Contains("Shipping</th><td class=\"number\">€3.00</td>", receipt, StringComparison.Ordinal);
        Assert.Contains("<b>€10.00</b>", receipt, StringComparison.Ordinal);
        Assert.Contains(
            "It comes to €10.00. Of it €3.00 is for shipping.",
            await Text(buyer, page),
            StringComparison.Ordinal
        );
        await shop.PostJson($"/api{page}/invoice", new { });
        var invoice = await Text(buyer, $"{page}/invoice/1");
        Assert.Contains(
            "Shipping</td><td class=\"number\">1</td><td class=\"number\">€3.00",
            invoice,
            StringComparison.Ordinal
        );
        Assert.Contains("<td class=\"number\">€10.00</td></tr></tfoot>", invoice, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_kept_of_an_order_nothing_of_which_has_left_is_a_share_of_the_reeds_only()
    {
        await using var paying = await PayingShop.Open(drawer: 0, payment: new { keptShare = 0.5 });
        await ExampleReeds.FillHistory(paying.Shop);
        await Zones.Keep(paying.Shop, Zones.Home);
        var order = await Pay(paying, await paying.Shop.PostJson("/api/quotes", Wish(2, "PT")));
        await CardFacts.Balanced(paying, order, captured: 1000, refunded: 0);
        await new ExampleMaker(paying.Shop).WorkUntil(
            async () => await paying.Status(order) == "onBench",
            mostDays: 10
        );

        await paying.CancelAsBuyer(order);

        await CardFacts.Balanced(paying, order, captured: 1000, refunded: 650);
    }

    [Fact]
    public async Task Once_a_parcel_has_left_its_shipping_stays_paid_and_the_rest_of_the_reeds_goes_back()
    {
        await using var paying = await PayingShop.Open(drawer: 1);
        await ExampleReeds.FillHistory(paying.Shop);
        await Zones.Keep(paying.Shop, Zones.Home);
        var quote = await paying.Shop.PostJson("/api/quotes", Wish(3, "PT", parts: true));
        var order = await Pay(paying, quote);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { part = true });

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        await CardFacts.Balanced(paying, order, captured: 1350, refunded: 700);
    }

    [Fact]
    public async Task A_deposit_is_a_share_of_the_whole_and_the_rest_brings_the_shipping()
    {
        await using var paying = await PayingShop.Open(payment: new { depositShare = 0.4 });
        await Zones.Keep(paying.Shop, Zones.Home);

        var order = await Pay(paying, await paying.Shop.PostJson("/api/quotes", Wish(2, "PT")));

        Assert.Equal(400, paying.Stripe.Charged);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });
        await CardFacts.Balanced(paying, order, captured: 1000, refunded: 0);
    }

    [Fact]
    public async Task A_new_shop_sees_its_first_promise_though_it_has_zones()
    {
        await using var shop = await Open(Zones.Home);
        using var owner = await Visitor.Owner(shop);

        var page = await owner.Read("/bench/opening/next");

        Assert.DoesNotContain("no date can be promised yet", page, StringComparison.Ordinal);
    }

    private static async Task<ShopHost> Open(params object[] zones)
    {
        var shop = await ExampleReeds.ShopWithHistory();
        await Zones.Keep(shop, zones.Length == 0 ? [Zones.Home, Zones.World] : zones);
        return shop;
    }

    private static object Wish(int reeds, string? country, bool parts = false) =>
        new
        {
            lines = new[]
            {
                new
                {
                    model = ExampleReeds.Clarinet,
                    strength = 3.5,
                    quantity = reeds,
                },
            },
            country,
            partsAreFine = parts,
        };

    private static Task<HttpResponseMessage> Accept(ShopHost shop, JsonElement quote, string country) =>
        ShopHost.Send(
            shop.Guest,
            HttpMethod.Post,
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
                    country,
                },
            }
        );

    private static async Task<JsonElement> Pay(PayingShop paying, JsonElement quote)
    {
        var order = await ShopHost.Read(await Accept(paying.Shop, quote, "PT"));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);
        return order;
    }

    private static int Amount(JsonElement priced, string part) =>
        priced.GetProperty("parts").GetProperty(part).GetProperty("amount").GetInt32();

    private static async Task<string> Text(Visitor buyer, string path)
    {
        var answer = await buyer.Get(path);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancel));
    }
}

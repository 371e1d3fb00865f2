using System.Net;

namespace ReedShop.Tests.Checkout;

/// <summary>The country in the buyer's form, without script.</summary>
public sealed class ShippingFormFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_country_is_asked_with_the_reeds_and_the_offer_adds_its_shipping()
    {
        await using var shop = await Open(Zones.Home);
        using var buyer = new Visitor(shop);

        var empty = Text(await buyer.Read("/"));
        Assert.Contains("<option value=\"ES\">Spain</option>", empty, StringComparison.Ordinal);
        var answer = await buyer.Post("/", [.. Reeds, ("country", "PT"), ("do", "see")]);
        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        var seen = Text(await buyer.Follow(answer));

        Assert.Contains("<dt>Shipping: Portugal</dt><dd>€3.00</dd>", seen, StringComparison.Ordinal);
        Assert.Contains("<p class=\"total\"><b>€10.00</b></p>", seen, StringComparison.Ordinal);
        Assert.Contains("<option value=\"PT\" selected>Portugal</option>", seen, StringComparison.Ordinal);
        Assert.Equal(2, seen.Split("name=\"country\"").Length);

        var ordered = await buyer.Post(
            "/",
            [.. Reeds, .. Buyer, ("country", "PT"), ("do", "order"), ("quoteId", Quote(seen))]
        );
        var page = Text(await buyer.Follow(ordered));
        Assert.Contains("1000 Harbour, Portugal", page, StringComparison.Ordinal);
        Assert.Contains("<dd>€10.00, not paid yet", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_country_than_the_price_was_made_for_brings_the_price_for_it_and_loses_nothing()
    {
        await using var shop = await Open(Zones.Home, Zones.World);
        using var buyer = new Visitor(shop);
        var seen = await buyer.Follow(await buyer.Post("/", [.. Reeds, ("country", "PT"), ("do", "see")]));

        var answer = await buyer.Post(
            "/",
            [.. Reeds, .. Buyer, ("country", "JP"), ("do", "order"), ("quoteId", Quote(seen))]
        );

        var page = Text(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("The country was changed after this price was made.", page, StringComparison.Ordinal);
        Assert.Contains("<dt>Shipping: Japan</dt><dd>€12.00</dd>", page, StringComparison.Ordinal);
        Assert.Contains("value=\"1 Quay\"", page, StringComparison.Ordinal);
        Assert.Equal(0, (await shop.GetJson("/api/orders")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task The_country_of_a_price_that_was_told_stays_on_its_page_whatever_zones_become()
    {
        await using var shop = await Open(Zones.Home, Zones.World);
        using var buyer = new Visitor(shop);
        var seen = await buyer.Follow(await buyer.Post("/", [.. Reeds, ("country", "JP"), ("do", "see")]));
        await Zones.Keep(
            shop,
            new
            {
                name = "one",
                countries = new[] { "PT" },
                bands = Zones.Bands(50, 300),
            }
        );

        var later = Text(await buyer.Read($"/?quote={Quote(seen)}"));

        Assert.Contains("<option value=\"JP\" selected>Japan</option>", later, StringComparison.Ordinal);
        Assert.DoesNotContain("<option value=\"PT\" selected>", later, StringComparison.Ordinal);
        var ordered = await buyer.Post(
            "/",
            [.. Reeds, .. Buyer, ("country", "JP"), ("do", "order"), ("quoteId", Quote(seen))]
        );
        Assert.Contains("1000 Harbour, Japan", Text(await buyer.Follow(ordered)), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_missing_country_is_said_beside_its_field_and_what_was_typed_stays()
    {
        await using var shop = await Open(Zones.Home);
        using var buyer = new Visitor(shop);

        var answer = await buyer.Post("/", [.. Reeds, .. Buyer, ("country", ""), ("do", "see")]);

        var page = Text(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("id=\"country-note\"", page, StringComparison.Ordinal);
        Assert.Contains("Accepted: Portugal, Spain.", page, StringComparison.Ordinal);
        Assert.Contains("name=\"street\" value=\"1 Quay\"", page, StringComparison.Ordinal);
        Assert.Contains("value=\"2\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task While_one_types_a_country_of_no_zone_is_told_what_is_accepted()
    {
        await using var shop = await Open(Zones.Home);
        using var buyer = new Visitor(shop);

        var none = await buyer.PostFrom("/", "/orders/check", [.. Reeds, .. Buyer, ("country", "")]);
        var right = await buyer.PostFrom("/", "/orders/check", [.. Reeds, .. Buyer, ("country", "ES")]);

        var notes = Text(await none.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("id=\"country-note\"", notes, StringComparison.Ordinal);
        Assert.Contains("Accepted: Portugal, Spain.", notes, StringComparison.Ordinal);
        Assert.Equal(2, notes.Split("class=\"refusal\"").Length);
        Assert.Equal("", (await right.Content.ReadAsStringAsync(Cancel)).Trim());
    }

    [Fact]
    public async Task The_only_country_is_chosen_already()
    {
        await using var shop = await Open(
            new
            {
                name = "home",
                countries = new[] { "PT" },
                bands = Zones.Bands(100, 0),
            }
        );
        using var buyer = new Visitor(shop);

        Assert.Contains("<option value=\"PT\" selected>", await buyer.Read("/"), StringComparison.Ordinal);
    }

    private static (string, string)[] Reeds =>
        [("model", ExampleReeds.Clarinet), ("strength", "3.5"), ("quantity", "2")];

    private static (string, string)[] Buyer =>
        [
            ("name", "Ana"),
            ("email", "ana@example.org"),
            ("street", "1 Quay"),
            ("postalCode", "1000"),
            ("locality", "Harbour"),
        ];

    private static async Task<ShopHost> Open(params object[] zones)
    {
        var shop = await ExampleReeds.ShopWithHistory();
        await Zones.Keep(shop, zones);
        return shop;
    }

    private static string Quote(string seen) => seen.Split("name=\"quoteId\" value=\"")[1].Split('"')[0];

    private static string Text(string page) => WebUtility.HtmlDecode(page);
}

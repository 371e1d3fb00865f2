using System.Net;

namespace ReedShop.Tests.Vouchers;

/// <summary>The code in the buyer's form, without script.</summary>
public sealed class VoucherFormFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_code_that_takes_nothing_off_is_refused_beside_its_field_and_keeps_what_was_typed()
    {
        await using var shop = await ExampleReeds.ShopWithHistory();
        using var buyer = new Visitor(shop);

        var answer = await buyer.Post("/", [.. Reeds, .. Buyer, ("voucher", "Nothing"), ("do", "see")]);

        var page = Text(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        Assert.Contains("<details class=\"voucher\" open>", page, StringComparison.Ordinal);
        Assert.Contains("id=\"voucher-note\"><strong>There is no such voucher.", page, StringComparison.Ordinal);
        Assert.Contains("value=\"Nothing\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"street\" value=\"1 Quay\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"country\" value=\"PT\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_is_folded_away_until_there_is_one_and_comes_back_with_its_offer()
    {
        await using var shop = await Open();
        using var buyer = new Visitor(shop);

        Assert.Contains("<details class=\"voucher\"><summary>", await buyer.Read("/"), StringComparison.Ordinal);
        var seen = Text(await buyer.Follow(await buyer.Post("/", [.. Reeds, ("voucher", "quay"), ("do", "see")])));

        Assert.Contains("name=\"voucher\" type=\"text\" value=\"QUAY\"", seen, StringComparison.Ordinal);
        Assert.Contains("<dt>Voucher QUAY</dt><dd>-€1.00</dd>", seen, StringComparison.Ordinal);
        Assert.Contains("<p class=\"total\"><b>€6.00</b></p>", seen, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_code_typed_after_the_price_was_made_brings_a_new_price_before_anything_is_ordered()
    {
        await using var shop = await Open();
        using var buyer = new Visitor(shop);
        var seen = await buyer.Follow(await buyer.Post("/", [.. Reeds, ("do", "see")]));

        var answer = await Order(buyer, seen, "QUAY");

        var page = Text(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("The voucher was changed after this price was made.", page, StringComparison.Ordinal);
        Assert.Contains("<p class=\"total\"><b>€6.00</b></p>", page, StringComparison.Ordinal);
        Assert.Equal(0, (await shop.GetJson("/api/orders")).GetProperty("items").GetArrayLength());
    }

    [Fact]
    public async Task A_code_used_up_between_price_and_order_is_said_beside_its_field_and_the_buyer_stays_typed()
    {
        await using var shop = await Open();
        using var first = new Visitor(shop);
        using var second = new Visitor(shop);
        var seen = await first.Follow(await first.Post("/", [.. Reeds, ("voucher", "QUAY"), ("do", "see")]));
        var other = await second.Follow(await second.Post("/", [.. Reeds, ("voucher", "QUAY"), ("do", "see")]));
        Assert.Equal(HttpStatusCode.SeeOther, (await Order(second, other, " quay ")).StatusCode);

        var answer = await Order(first, seen, "QUAY");

        var page = Text(await answer.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("id=\"voucher-note\"><strong>This voucher is used up.", page, StringComparison.Ordinal);
        Assert.Contains("name=\"street\" value=\"1 Quay\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("€6.00", page, StringComparison.Ordinal);
        var without = await first.PostFrom("/", "/", [.. Reeds, .. Buyer, ("voucher", ""), ("do", "see")]);
        var again = Text(await without.Content.ReadAsStringAsync(Cancel));
        Assert.Contains("<p class=\"total\"><b>€7.00</b></p>", again, StringComparison.Ordinal);
        Assert.Contains("value=\"1 Quay\"", again, StringComparison.Ordinal);
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
            ("country", "PT"),
        ];

    private static async Task<ShopHost> Open()
    {
        var shop = await ExampleReeds.ShopWithHistory();
        await shop.PostJson(
            "/api/vouchers",
            new
            {
                code = "QUAY",
                amount = new { amount = 100, currency = "EUR" },
                mostUses = 1,
            }
        );
        return shop;
    }

    private static Task<HttpResponseMessage> Order(Visitor buyer, string seen, string voucher) =>
        buyer.Post(
            "/",
            [
                .. Reeds,
                .. Buyer,
                ("voucher", voucher),
                ("do", "order"),
                ("quoteId", seen.Split("name=\"quoteId\" value=\"")[1].Split('"')[0]),
            ]
        );

    private static string Text(string page) => WebUtility.HtmlDecode(page);
}

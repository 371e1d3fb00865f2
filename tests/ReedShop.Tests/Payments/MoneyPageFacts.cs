using System.Net;
using System.Text.Json.Nodes;

namespace ReedShop.Tests.Payments;

public sealed class MoneyPageFacts
{
    [Fact]
    public async Task The_page_of_an_order_leads_to_Stripe_by_a_plain_link_and_says_that_it_is_a_test()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        using var buyer = new Visitor(paying.Shop);

        var page = await buyer.Get($"/orders/{PayingShop.Id(order)}");
        var text = WebUtility.HtmlDecode(await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));

        Assert.Contains($"href=\"{order.GetProperty("payUrl").GetString()}\"", text, StringComparison.Ordinal);
        Assert.Contains("Pay €7.00 by card", text, StringComparison.Ordinal);
        Assert.Contains("held for you until 09:30", text, StringComparison.Ordinal);
        Assert.Contains("A test: no money moves", text, StringComparison.Ordinal);
        Assert.Contains(
            "form-action 'self'",
            page.Headers.GetValues("Content-Security-Policy").Single(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task The_order_form_leads_to_the_page_of_the_order_and_on_to_Stripe()
    {
        await using var paying = await PayingShop.Open();
        using var buyer = new Visitor(paying.Shop);
        (string, string)[] reeds = [("model", "clarinet"), ("strength", "3.5"), ("quantity", "2")];
        var seen = await buyer.Follow(await buyer.Post("/", [.. reeds, ("do", "see")]));
        Assert.Contains("You pay by card on the next page", seen, StringComparison.Ordinal);
        var quote = seen.Split("name=\"quoteId\" value=\"")[1].Split('"')[0];

        var sent = await buyer.Post(
            "/",
            [
                .. reeds,
                ("quoteId", quote),
                ("name", "Ana Example"),
                ("email", "ana@example.org"),
                ("street", "1 Quay"),
                ("locality", "Harbour"),
                ("postalCode", "1000-001"),
                ("country", "PT"),
                ("do", "order"),
            ]
        );

        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        var page = await buyer.Read(sent.Headers.Location!.OriginalString);
        Assert.Contains($"href=\"{paying.Stripe.Sessions.Values.Single().Url}\"", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_paid_order_shows_its_invoice_and_a_refund_its_credit_note()
    {
        await using var paying = await PayingShop.Open(
            payment: new
            {
                paperNote = "Tax number PT 0",
                taxShare = 0.06,
                taxName = "VAT",
            }
        );
        var order = await paying.PaidOrder();
        await paying.CancelAsBuyer(order);
        using var buyer = new Visitor(paying.Shop);
        var page = $"/orders/{PayingShop.Id(order)}";

        Assert.Contains($"{page}/invoice/1", await buyer.Read(page), StringComparison.Ordinal);
        var invoice = WebUtility.HtmlDecode(await buyer.Read($"{page}/invoice/1"));
        Assert.Contains("Reed 3½ (B-flat clarinet)", invoice, StringComparison.Ordinal);
        Assert.Contains("€7.00", invoice, StringComparison.Ordinal);
        Assert.Contains("1000-001 Harbour", invoice, StringComparison.Ordinal);
        Assert.Contains("Tax number PT 0", invoice, StringComparison.Ordinal);
        Assert.Contains("Of which tax, VAT 6 in 100: €0.40", invoice, StringComparison.Ordinal);
        var credit = WebUtility.HtmlDecode(await buyer.Read($"{page}/credit-note/1"));
        Assert.Contains("Order cancelled", credit, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await buyer.Get($"{page}/invoice/2")).StatusCode);
        var other = await paying.PaidOrder(email: "ben@example.org");
        Assert.Equal(
            HttpStatusCode.NotFound,
            (await buyer.Get($"/orders/{PayingShop.Id(other)}/invoice/1")).StatusCode
        );
        Assert.Equal(HttpStatusCode.OK, (await buyer.Get($"/orders/{PayingShop.Id(other)}/invoice/2")).StatusCode);
    }

    [Fact]
    public async Task The_owner_gives_back_from_the_page_of_the_orders_money()
    {
        await using var paying = await PayingShop.Open();
        using var owner = await Visitor.Owner(paying.Shop);
        var order = await paying.PaidOrder();
        var page = $"/bench/orders/{PayingShop.Id(order)}/money";

        var refused = await owner.PostFrom(page, $"/bench/orders/{PayingShop.Id(order)}/refunds", ("amount", "9"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.StatusCode);
        paying.Stripe.Fail("/v1/refunds", StripeFault.Declined);
        await owner.PostFrom(page, $"/bench/orders/{PayingShop.Id(order)}/refunds", ("amount", "2.50"));

        Assert.Contains("Try it again", await owner.Read(page), StringComparison.Ordinal);
        var all = WebUtility.HtmlDecode(await owner.Read("/bench/money"));
        Assert.Contains("€2.50 to go back, and was not done: Stripe answered 402", all, StringComparison.Ordinal);
        var refund = (await paying.Money(order)).GetProperty("refunds")[0];
        await owner.PostFrom(
            page,
            $"/bench/orders/{PayingShop.Id(order)}/refunds/{PayingShop.Id(refund)}",
            ("do", "again")
        );
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 250);
        Assert.Contains("Nothing waits for you", await owner.Read("/bench/money"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_form_of_giving_back_sent_twice_is_one_refund()
    {
        await using var paying = await PayingShop.Open();
        using var owner = await Visitor.Owner(paying.Shop);
        var order = await paying.PaidOrder();
        var page = $"/bench/orders/{PayingShop.Id(order)}/money";
        var key = (await owner.Read(page)).Split("name=\"key\" value=\"").ElementAtOrDefault(1)?.Split('"')[0] ?? "";

        foreach (var _ in new[] { 1, 2 })
        {
            await owner.PostFrom(
                page,
                $"/bench/orders/{PayingShop.Id(order)}/refunds",
                ("amount", "2.50"),
                ("key", key)
            );
        }

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 250);
    }

    [Fact]
    public async Task The_terms_are_set_on_the_page_of_the_shop()
    {
        await using var paying = await PayingShop.Open();
        using var owner = await Visitor.Owner(paying.Shop);
        var form = Shop.ExampleForm.With(
            ("depositShare", "30"),
            ("keptShare", "25"),
            ("taxShare", "6"),
            ("taxName", "VAT"),
            ("paperNote", "Tax number PT 0"),
            (
                "version",
                (
                    await paying.Shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken)
                ).Headers.ETag!.Tag.Trim('"')
            )
        );

        var saved = await owner.Post("/bench/shop", form);

        Assert.Equal(HttpStatusCode.SeeOther, saved.StatusCode);
        var terms = (await paying.Shop.GetJson("/api/shop")).GetProperty("payment");
        Assert.Equal(0.3, terms.GetProperty("depositShare").GetDouble());
        Assert.Equal(0.25, terms.GetProperty("keptShare").GetDouble());
        Assert.Equal(0.06, terms.GetProperty("taxShare").GetDouble());
        Assert.Equal("Tax number PT 0", terms.GetProperty("paperNote").GetString());
    }

    [Fact]
    public async Task A_script_that_does_not_know_the_terms_of_payment_leaves_them_as_they_are()
    {
        await using var paying = await PayingShop.Open(payment: new { depositShare = 0.3, taxShare = 0.06 });
        using var known = await paying.Shop.Owner.GetAsync("/api/shop", TestContext.Current.CancellationToken);
        var settings = JsonNode.Parse(await known.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        settings.AsObject().Remove("payment");

        await paying.Shop.PutJson("/api/shop", settings, known.Headers.ETag!.Tag);

        var terms = (await paying.Shop.GetJson("/api/shop")).GetProperty("payment");
        Assert.Equal(0.3, terms.GetProperty("depositShare").GetDouble());
        Assert.Equal(0.06, terms.GetProperty("taxShare").GetDouble());
    }
}

using System.Net;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Quotes;
using ReedShop.Tests.Payments;

namespace ReedShop.Tests.Vouchers;

/// <summary>Two reeds are 7.00.</summary>
public sealed class VoucherFacts
{
    private const string Code = "HARBOUR-10";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("HARBOUR-10")]
    [InlineData("  harbour-10 ")]
    public async Task A_code_takes_its_share_off_the_reeds_and_nothing_off_shipping(string typed)
    {
        await using var paying = await Open(new { code = "Harbour-10", share = 0.1 });
        await Zones.Keep(paying.Shop, Zones.Home);

        var quote = await paying.Shop.PostJson("/api/quotes", Wish(typed, country: "PT"));

        Assert.Equal((700, 70, 300, 930), Parts(quote));
        Assert.Equal(Code, quote.GetProperty("parts").GetProperty("voucher").GetString());
        var order = await ShopHost.Read(await Accept(paying, quote));
        Assert.Equal((700, 70, 300, 930), Parts(order));
        Assert.Equal(930, paying.Stripe.Sessions[PayingShop.SessionOf(order)].Amount);
    }

    [Fact]
    public async Task Unknown_ended_past_and_used_up_codes_and_too_small_orders_are_refused_by_the_field()
    {
        await using var paying = await Open(
            new
            {
                code = "LAST",
                share = 0.1,
                mostUses = 1,
            },
            new { code = "GONE", share = 0.1 },
            new
            {
                code = "TODAY",
                share = 0.1,
                lastDay = "2027-03-01",
            },
            new
            {
                code = "LARGE",
                share = 0.1,
                leastReeds = new { amount = 701, currency = "EUR" },
            }
        );
        await paying.Shop.PostJson("/api/vouchers/gone/end", new { });
        await ShopHost.Read(await Accept(paying, await paying.Shop.PostJson("/api/quotes", Wish("LAST"))));
        await paying.Shop.PostJson("/api/quotes", Wish("TODAY"));
        await paying.Shop.PostJson("/api/quotes", Wish("LARGE", reeds: 3));

        Assert.Equal("There is no such voucher.", await Refusal(paying, "GUESS"));
        Assert.Equal("This voucher is used up.", await Refusal(paying, "last"));
        Assert.Equal("This voucher has ended.", await Refusal(paying, "GONE"));
        Assert.Equal("This voucher is for a larger order.", await Refusal(paying, "LARGE"));
        paying.Shop.Time.Advance(TimeSpan.FromDays(1));
        Assert.Equal("The last day of this voucher has passed.", await Refusal(paying, "TODAY"));
    }

    [Fact]
    public async Task Two_buyers_never_both_take_the_last_use()
    {
        await using var paying = await Open(
            new
            {
                code = Code,
                share = 0.1,
                mostUses = 1,
            }
        );
        var quotes = new List<JsonElement>();
        for (var n = 0; n < 4; n++)
        {
            quotes.Add(await paying.Shop.PostJson("/api/quotes", Wish(Code)));
        }

        var answers = await Task.WhenAll(quotes.Select((quote, n) => Accept(paying, quote, $"buyer{n}@example.org")));

        Assert.Single(answers, answer => answer.StatusCode == HttpStatusCode.Created);
        foreach (var late in answers.Where(answer => answer.StatusCode != HttpStatusCode.Created))
        {
            var problem = await ShopHost.ReadProblem(late, HttpStatusCode.UnprocessableEntity, "invalid-value");
            Assert.Equal("voucher", problem.GetProperty("field").GetString());
        }

        Assert.Equal((1, "usedUp"), await Standing(paying));
    }

    [Fact]
    public async Task An_order_that_expires_or_is_cancelled_gives_its_use_back()
    {
        await using var paying = await Open(
            new
            {
                code = Code,
                share = 0.1,
                mostUses = 1,
            }
        );
        var expiring = await Order(paying);
        await Expire(paying, expiring);
        Assert.Equal("expired", await paying.Status(expiring));
        Assert.Equal((0, "open"), await Standing(paying));

        var cancelled = await Order(paying, "second@example.org");
        Assert.Equal((1, "usedUp"), await Standing(paying));
        await paying.CancelAsBuyer(cancelled);

        Assert.Equal((0, "open"), await Standing(paying));
        await Order(paying, "third@example.org");
    }

    [Theory]
    [InlineData(false, "ready", 630, 0)]
    [InlineData(true, "expired", 630, 630)]
    public async Task An_order_paid_too_late_is_taken_up_again_only_while_a_use_is_left(
        bool isTaken,
        string status,
        long captured,
        long refunded
    )
    {
        await using var paying = await Open(
            new
            {
                code = Code,
                share = 0.1,
                mostUses = 1,
            }
        );
        var late = await Order(paying);
        var session = PayingShop.SessionOf(late);
        await Expire(paying, late);
        if (isTaken)
        {
            await Order(paying, "other@example.org");
        }

        paying.Stripe.PayAfterAll(session);
        await paying.TellOfSession(session);
        await paying.Tick();

        Assert.Equal(status, await paying.Status(late));
        await CardFacts.Balanced(paying, late, captured, refunded);
        Assert.Equal((1, "usedUp"), await Standing(paying));
    }

    [Fact]
    public async Task A_voucher_that_ends_takes_the_prices_told_with_it_along_but_its_last_day_does_not()
    {
        await using var paying = await Open(
            new
            {
                code = Code,
                share = 0.1,
                lastDay = "2027-03-01",
            }
        );
        var kept = await paying.Shop.PostJson("/api/quotes", Wish(Code));
        var fallen = await paying.Shop.PostJson("/api/quotes", Wish(Code));
        paying.Shop.Time.Advance(TimeSpan.FromHours(16));

        var order = await ShopHost.Read(await Accept(paying, kept));
        await paying.Shop.PostJson($"/api/vouchers/{Code}/end", new { });
        var refused = await Accept(paying, fallen);

        Assert.Equal(630, Parts(order).Total);
        var problem = await ShopHost.ReadProblem(refused, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("voucher", problem.GetProperty("field").GetString());
    }

    [Fact]
    public async Task A_price_told_afresh_after_the_last_day_holds_as_the_first_one_did()
    {
        await using var paying = await Open(
            new
            {
                code = Code,
                share = 0.1,
                lastDay = "2027-03-01",
            }
        );
        var first = await paying.Shop.PostJson("/api/quotes", Wish(Code));
        paying.Shop.Time.Advance(TimeSpan.FromHours(16));

        var afresh = await paying.Shop.Within(async services =>
        {
            var quotes = services.GetRequiredService<QuoteStore>();
            var known = await quotes.Find(first.GetProperty("id").GetString()!, default);
            return await services.GetRequiredService<QuoteMaker>().MakeAgain(known!.Request, default);
        });
        var order = await ShopHost.Read(
            await Accept(paying, JsonSerializer.SerializeToElement(new { id = afresh.Value.Id }))
        );

        Assert.Equal(630, Parts(order).Total);
    }

    [Fact]
    public async Task A_letter_with_shipping_and_a_voucher_says_which_amount_is_of_the_price()
    {
        await using var paying = await Open(new { code = Code, share = 0.1 });
        await Zones.Keep(paying.Shop, Zones.Home);
        using var buyer = new Visitor(paying.Shop);

        var quote = await paying.Shop.PostJson("/api/quotes", Wish(Code, country: "PT"));
        var order = await ShopHost.Read(await Accept(paying, quote));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);

        Assert.Contains(
            "It comes to €9.30. Of it €3.00 is for shipping. The voucher HARBOUR-10 took €0.70 off. All of it is paid",
            await Text(buyer, $"/orders/{PayingShop.Id(order)}"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task An_order_worth_nothing_needs_no_card_and_counts_as_paid()
    {
        await using var paying = await Open(new { code = "FREE", amount = new { amount = 1000, currency = "EUR" } });
        using var buyer = new Visitor(paying.Shop);

        var order = await ShopHost.Read(await Accept(paying, await paying.Shop.PostJson("/api/quotes", Wish("free"))));

        Assert.Equal("ready", order.GetProperty("status").GetString());
        Assert.True(order.GetProperty("paid").GetBoolean());
        Assert.False(order.TryGetProperty("payUrl", out _));
        Assert.Empty(paying.Stripe.Sessions);
        var page = WebUtility.HtmlDecode(await buyer.Read($"/orders/{PayingShop.Id(order)}"));
        Assert.Contains("€0.00, paid", page, StringComparison.Ordinal);
        Assert.Contains("Nothing is to be paid.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("invoice comes", page, StringComparison.Ordinal);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { });
        await CardFacts.Balanced(paying, order, captured: 0, refunded: 0);
    }

    [Fact]
    public async Task With_shipping_a_free_order_still_pays_for_its_parcel()
    {
        await using var paying = await Open(new { code = "FREE", share = 1 });
        await Zones.Keep(paying.Shop, Zones.Home);

        var quote = await paying.Shop.PostJson("/api/quotes", Wish("FREE", country: "PT"));
        var order = await ShopHost.Read(await Accept(paying, quote));

        Assert.Equal((700, 700, 300, 300), Parts(order));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);
        await paying.CancelAsBuyer(order);
        await CardFacts.Balanced(paying, order, captured: 300, refunded: 300);
    }

    [Fact]
    public async Task Offer_order_page_receipt_letter_and_invoice_have_a_line_for_it()
    {
        await using var paying = await Open(new { code = Code, share = 0.1 });
        using var buyer = new Visitor(paying.Shop);
        var quote = await paying.Shop.PostJson("/api/quotes", Wish(Code));
        var offer = await Text(buyer, $"/?quote={quote.GetProperty("id").GetString()}");
        var order = await ShopHost.Read(await Accept(paying, quote));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);
        var page = await Text(buyer, $"/orders/{PayingShop.Id(order)}");

        Assert.Contains("<dt>Voucher HARBOUR-10</dt><dd>-€0.70</dd>", offer, StringComparison.Ordinal);
        Assert.Contains("<dt>Voucher HARBOUR-10</dt><dd>-€0.70</dd>", page, StringComparison.Ordinal);
        Assert.Contains(
            "It comes to €6.30. The voucher HARBOUR-10 took €0.70 off. All of it is paid",
            page,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Voucher HARBOUR-10</th><td class=\"number\">-€0.70</td>",
            await Text(buyer, $"/orders/{PayingShop.Id(order)}/receipt"),
            StringComparison.Ordinal
        );
        var invoice = await Text(buyer, $"/orders/{PayingShop.Id(order)}/invoice/1");
        Assert.Contains(
            "Voucher HARBOUR-10</td><td class=\"number\">1</td><td class=\"number\">-€0.70</td>",
            invoice,
            StringComparison.Ordinal
        );
        Assert.Contains("<td class=\"number\">€6.30</td></tr></tfoot>", invoice, StringComparison.Ordinal);
        await CardFacts.Balanced(paying, order, captured: 630, refunded: 0);
    }

    [Fact]
    public async Task Guesses_wait_at_the_gate_of_what_computes_and_no_open_door_tells_of_a_code()
    {
        await using var paying = await Open(new { code = Code, share = 0.1 });
        using var buyer = new Visitor(paying.Shop);
        (string, string)[] typed =
        [
            ("model", ExampleReeds.Clarinet),
            ("strength", "3.5"),
            ("quantity", "2"),
            ("voucher", "GUESS"),
        ];

        // What is checked while somebody types passes no gate, so it must not know.
        var notes = await buyer.PostFrom("/", "/orders/check", typed);
        Assert.DoesNotContain("voucher", await notes.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        var token = await buyer.FormToken("/");
        await using var gate = await Platform.FullGate.Of(paying.Shop);
        var quote = await ShopHost.Send(paying.Shop.Guest, HttpMethod.Post, "/api/quotes", Wish("GUESS"));
        var form = await buyer.PostWith(token, "/", [.. typed, ("do", "look")]);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, quote.StatusCode);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, form.StatusCode);
    }

    /// <summary>Three reeds at 10.50 less 1.05; one has left at 3.50 less 0.35.</summary>
    [Fact]
    public async Task What_has_left_keeps_its_part_of_the_discount_and_the_use()
    {
        await using var paying = await Open(
            drawer: 1,
            new
            {
                code = Code,
                share = 0.1,
                mostUses = 1,
            }
        );
        await ExampleReeds.FillHistory(paying.Shop);
        var quote = await paying.Shop.PostJson("/api/quotes", Wish(Code, reeds: 3, parts: true));
        var order = await ShopHost.Read(await Accept(paying, quote));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { part = true });

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        await CardFacts.Balanced(paying, order, captured: 945, refunded: 630);
        Assert.Equal((1, "usedUp"), await Standing(paying));
    }

    private static Task<PayingShop> Open(params object[] vouchers) => Open(100, vouchers);

    private static async Task<PayingShop> Open(int drawer, params object[] vouchers)
    {
        var paying = await PayingShop.Open(drawer);
        foreach (var voucher in vouchers)
        {
            await paying.Shop.PostJson("/api/vouchers", voucher);
        }

        return paying;
    }

    private static object Wish(string voucher, int reeds = 2, string? country = null, bool parts = false) =>
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
            voucher,
            country,
            partsAreFine = parts,
        };

    private static Task<HttpResponseMessage> Accept(
        PayingShop paying,
        JsonElement quote,
        string email = "ana@example.org"
    ) => ShopHost.Send(paying.Shop.Guest, HttpMethod.Post, "/api/orders", PayingShop.Wish(quote, email));

    private static async Task<JsonElement> Order(PayingShop paying, string email = "ana@example.org") =>
        await ShopHost.Read(await Accept(paying, await paying.Shop.PostJson("/api/quotes", Wish(Code)), email));

    private static async Task Expire(PayingShop paying, JsonElement order)
    {
        paying.Stripe.Sessions[PayingShop.SessionOf(order)].Status = "expired";
        await paying.Tick(TimeSpan.FromMinutes(32));
    }

    private static async Task<string?> Refusal(PayingShop paying, string code)
    {
        var answer = await ShopHost.Send(paying.Shop.Guest, HttpMethod.Post, "/api/quotes", Wish(code));
        var problem = await ShopHost.ReadProblem(answer, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("voucher", problem.GetProperty("field").GetString());
        Assert.False(string.IsNullOrEmpty(problem.GetProperty("allowed").GetString()));
        return problem.GetProperty("detail").GetString();
    }

    private static async Task<(int Uses, string? Status)> Standing(PayingShop paying)
    {
        var voucher = (await paying.Shop.GetJson("/api/vouchers")).EnumerateArray().Single();
        return (voucher.GetProperty("uses").GetInt32(), voucher.GetProperty("status").GetString());
    }

    private static (int Reeds, int Discount, int Shipping, int Total) Parts(JsonElement priced)
    {
        var parts = priced.GetProperty("parts");
        return (Amount("reeds"), Amount("discount"), Amount("shipping"), Amount("total"));

        int Amount(string part) =>
            parts.TryGetProperty(part, out var money) ? money.GetProperty("amount").GetInt32() : 0;
    }

    private static async Task<string> Text(Visitor buyer, string path) => WebUtility.HtmlDecode(await buyer.Read(path));
}

using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Payments;

public sealed class CardFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Without_keys_an_order_is_accepted_at_once_and_an_invoice_is_sent()
    {
        await using var shop = await ExampleReeds.NewShop();
        await shop.PostJson(
            "/api/drawer/count",
            new
            {
                model = ExampleReeds.Clarinet,
                strength = 3.5,
                count = 9,
            }
        );
        var quote = await shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));

        var order = await shop.PostJson("/api/orders", ExampleReeds.Order(quote.GetProperty("id").GetString()!));

        Assert.Equal("ready", order.GetProperty("status").GetString());
        Assert.False(order.TryGetProperty("payUrl", out _));
        var paid = await shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });
        Assert.True(paid.GetProperty("paid").GetBoolean());
        var money = await shop.GetJson($"/api/orders/{PayingShop.Id(order)}/money");
        Assert.Equal(700, PayingShop.Amount(money, "invoiced"));
        Assert.Equal("byHand", money.GetProperty("payments")[0].GetProperty("way").GetString());
    }

    [Fact]
    public async Task An_order_waits_for_its_payment_and_is_accepted_when_the_buyer_comes_back()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        Assert.Equal("awaitingPayment", order.GetProperty("status").GetString());
        Assert.Equal(["payment-wanted"], await paying.Letters());

        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.Shop.Guest.GetAsync($"/orders/{PayingShop.Id(order)}/paid", Cancel);

        var read = await paying.Read(order);
        Assert.Equal("ready", read.GetProperty("status").GetString());
        Assert.True(read.GetProperty("paid").GetBoolean());
        Assert.False(read.TryGetProperty("payUrl", out _));
        Assert.Equal(["payment-wanted", "order-confirmed"], await paying.Letters());
        await Balanced(paying, order, captured: 700, refunded: 0);
    }

    [Fact]
    public async Task A_webhook_is_stored_at_once_and_worked_later()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));

        var answer = await paying.TellOfSession(PayingShop.SessionOf(order));

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Equal("awaitingPayment", await paying.Status(order));
        await paying.Tick();
        Assert.Equal("ready", await paying.Status(order));
    }

    [Fact]
    public async Task What_a_lost_webhook_left_behind_is_repaired_by_asking()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));

        await paying.Tick();
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(6));
        await paying.Tick();

        Assert.Equal("ready", await paying.Status(order));
    }

    [Fact]
    public async Task An_unpaid_order_holds_its_reeds_until_Stripe_says_that_it_has_expired()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order();
        Assert.Equal(0, await Free(paying));

        paying.Shop.Time.Advance(TimeSpan.FromMinutes(29));
        await paying.Tick();
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(3));
        await paying.Tick();

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(2, await Free(paying));
        Assert.Contains("payment-expired", await paying.Letters());
        Assert.Equal(0, paying.Stripe.Charged);
    }

    /// <summary>The way back of a browser leads to the date that was ordered.</summary>
    [Fact]
    public async Task The_date_of_an_order_that_ended_unpaid_is_not_offered_again()
    {
        await using var paying = await PayingShop.Open();
        var quote = await paying.Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        await ShopHost.Send(
            paying.Shop.Guest,
            HttpMethod.Post,
            "/api/orders",
            PayingShop.Wish(quote, "ana@example.org")
        );
        var address = $"/?quote={quote.GetProperty("id").GetString()}";
        using var buyer = new Visitor(paying.Shop);
        Assert.Contains("name=\"email\"", await buyer.Read(address), StringComparison.Ordinal);

        paying.Shop.Time.Advance(TimeSpan.FromMinutes(32));
        await paying.Tick();
        var later = await buyer.Read(address);

        Assert.Contains("This quote has run out.", later, StringComparison.Ordinal);
        Assert.DoesNotContain("name=\"email\"", later, StringComparison.Ordinal);
    }

    [Fact]
    public async Task One_buyer_has_at_most_two_orders_that_wait_to_be_paid()
    {
        await using var paying = await PayingShop.Open();
        await paying.Order();
        var second = await paying.Order();

        var refused = await paying.Send(email: "ANA@example.org");
        await ShopHost.ReadProblem(refused, HttpStatusCode.Conflict, "wrong-stage");
        await paying.Order(email: "ben@example.org");

        paying.Stripe.Pay(PayingShop.SessionOf(second));
        await paying.Shop.Guest.GetAsync($"/orders/{PayingShop.Id(second)}/paid", Cancel);
        await paying.Order();
    }

    [Fact]
    public async Task The_same_order_sent_again_has_the_same_session()
    {
        await using var paying = await PayingShop.Open();
        var quote = await paying.Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        var wish = PayingShop.Wish(quote, "ana@example.org");

        var first = await paying.Shop.PostJson("/api/orders", wish);
        var again = await paying.Shop.PostJson("/api/orders", wish);

        Assert.Equal(first.GetProperty("payUrl").GetString(), again.GetProperty("payUrl").GetString());
        Assert.Single(paying.Stripe.Sessions);
    }

    /// <summary>
    /// A 500 is all that its key will ever be answered: what Stripe made beside it is a session that nobody was given.
    /// </summary>
    [Theory]
    [InlineData(StripeFault.TooMany, 1)]
    [InlineData(StripeFault.Broken, 1)]
    [InlineData(StripeFault.BrokenAfter, 2)]
    [InlineData(StripeFault.SilentAfter, 1)]
    public async Task A_session_that_could_not_be_opened_is_opened_a_minute_later(StripeFault fault, int made)
    {
        await using var paying = await PayingShop.Open();
        paying.Stripe.Fail("/v1/checkout", fault);

        var order = await paying.Order();
        Assert.False(order.TryGetProperty("payUrl", out _));
        Assert.Equal("awaitingPayment", order.GetProperty("status").GetString());
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(1));
        await paying.Tick();

        var url = (await paying.Read(order)).GetProperty("payUrl").GetString()!;
        Assert.Equal(made, paying.Stripe.Sessions.Count);
        Assert.True(paying.Stripe.Pay(url.Split('/')[^1]));
        await paying.Shop.Guest.GetAsync($"/orders/{PayingShop.Id(order)}/paid", Cancel);
        Assert.Equal("ready", await paying.Status(order));
        await Balanced(paying, order, captured: 700, refunded: 0);
    }

    [Theory]
    [InlineData(StripeFault.Declined)]
    [InlineData(StripeFault.TooMany)]
    [InlineData(StripeFault.Broken)]
    [InlineData(StripeFault.SilentAfter)]
    public async Task A_word_that_cannot_be_worked_waits_and_is_worked_later(StripeFault fault)
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
        paying.Stripe.Fail("/v1/checkout/sessions/", fault);

        await paying.Shop.Tick("work-stripe-events");
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(2));
        await paying.Shop.Tick("work-stripe-events");

        Assert.Equal("ready", await paying.Status(order));
        await Balanced(paying, order, captured: 700, refunded: 0);
    }

    /// <summary>Two sessions of one row: the first was opened, and its answer lost.</summary>
    [Fact]
    public async Task A_session_that_nobody_was_given_changes_nothing_when_it_expires_and_is_refunded_if_it_is_paid()
    {
        await using var paying = await PayingShop.Open();
        paying.Stripe.Fail("/v1/checkout", StripeFault.SilentAfter);
        var order = await paying.Order();
        await paying.Tick(TimeSpan.FromMinutes(3));
        var (lost, given) = (paying.Stripe.Sessions.Values.First(), PayingShop.SessionOf(await paying.Read(order)));
        Assert.NotEqual(lost.Id, given);

        lost.Status = "expired";
        await paying.TellOfSession(lost.Id, "checkout.session.expired");
        await paying.Tick();
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Stripe.Pay(given);
        await paying.ComeBack(order);
        Assert.Equal("ready", await paying.Status(order));
        paying.Stripe.PayAfterAll(lost.Id);
        await paying.TellOfSession(lost.Id);
        await paying.TellOfSession(lost.Id);
        await paying.Tick();

        await Balanced(paying, order, captured: 1400, refunded: 700);
        Assert.Equal(700, paying.Stripe.GivenBack);
    }

    [Fact]
    public async Task Reading_an_order_asks_nothing_of_Stripe()
    {
        await using var paying = await PayingShop.Open();
        paying.Stripe.Fail("/v1/checkout", StripeFault.TooMany);
        var order = await paying.Order();
        var asked = paying.Stripe.Requests;

        await paying.Read(order);
        await paying.Shop.Guest.GetAsync($"/orders/{PayingShop.Id(order)}", Cancel);

        Assert.Equal(asked, paying.Stripe.Requests);
        Assert.Empty(paying.Stripe.Sessions);
    }

    [Fact]
    public async Task A_session_that_Stripe_refuses_to_open_ends_the_order_and_the_owner_is_told()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        paying.Stripe.Fail("/v1/checkout", StripeFault.Declined);

        var order = await paying.Order();
        await paying.Tick();

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(2, await Free(paying));
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
    }

    [Fact]
    public async Task An_order_cancelled_before_it_is_paid_can_not_be_paid_any_more()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        Assert.False(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        Assert.Equal("cancelled", await paying.Status(order));
    }

    [Fact]
    public async Task An_order_paid_while_it_was_being_cancelled_is_refunded_in_full()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        await Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Equal(700, paying.Stripe.GivenBack);
        Assert.Contains("paid-too-late", await paying.Letters());
        Assert.Contains("refunded", await paying.Letters());
    }

    internal static async Task Balanced(PayingShop paying, JsonElement order, long captured, long refunded)
    {
        var money = await paying.Money(order);
        Assert.Equal(captured, PayingShop.Amount(money, "captured"));
        Assert.Equal(refunded, PayingShop.Amount(money, "refunded"));
        Assert.Equal(captured, PayingShop.Amount(money, "invoiced"));
        Assert.Equal(refunded, PayingShop.Amount(money, "credited"));
        Assert.True(money.GetProperty("balances").GetBoolean());
    }

    private static async Task<int> Free(PayingShop paying) =>
        (await paying.Shop.GetJson("/api/drawer"))
            .EnumerateArray()
            .Sum(reeds => reeds.GetProperty("count").GetInt32() - reeds.GetProperty("spokenFor").GetInt32());
}

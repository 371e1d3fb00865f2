using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Payments;

public sealed class DepositFacts
{
    internal static readonly object Terms = new { depositShare = 0.4, keptShare = 0.5 };

    [Fact]
    public async Task The_rest_is_paid_before_the_parcel_leaves()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        Assert.Equal(280, paying.Stripe.Charged);
        Assert.Equal("ready", await paying.Status(order));
        Assert.False((await paying.Read(order)).GetProperty("paid").GetBoolean());

        var tooSoon = await paying.Shop.Send(HttpMethod.Post, $"/api/orders/{PayingShop.Id(order)}/ship", new { });
        await ShopHost.ReadProblem(tooSoon, HttpStatusCode.Conflict, "wrong-stage");
        await Task.WhenAll(Enumerable.Range(0, 4).Select(_ => Task.Run(() => paying.Shop.Tick("ask-for-balances"))));
        await paying.Shop.Tick("ask-for-balances");
        Assert.Single(await paying.Letters(), kind => kind == "balance-wanted");

        await PayTheRest(paying, order);

        Assert.True((await paying.Read(order)).GetProperty("paid").GetBoolean());
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
        Assert.Equal(2, (await paying.Money(order)).GetProperty("papers").GetArrayLength());
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { });
    }

    [Fact]
    public async Task A_balance_that_is_not_paid_in_time_is_asked_for_again_and_the_order_stands()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        var first = await AskForTheRest(paying, order);
        await paying.Tick(TimeSpan.FromMinutes(32));
        Assert.False(paying.Stripe.Pay(first));
        Assert.Equal("ready", await paying.Status(order));

        await PayTheRest(paying, order);

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
    }

    [Fact]
    public async Task A_balance_paid_after_the_owner_had_it_by_hand_goes_back()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        var session = await AskForTheRest(paying, order);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });

        paying.Stripe.PayAfterAll(session);
        await paying.TellOfSession(session);
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 1120, refunded: 420);
        Assert.Contains("paid-too-late", await paying.Letters());
    }

    [Fact]
    public async Task Once_the_rest_came_by_hand_its_session_is_closed_and_its_address_given_to_nobody()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        var session = await AskForTheRest(paying, order);

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/paid", new { });

        Assert.False((await paying.Read(order)).TryGetProperty("payUrl", out _));
        Assert.False(paying.Stripe.Pay(session));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
    }

    /// <summary>700 less 100 is 600, of which 280 - 100 is there.</summary>
    [Theory]
    [InlineData(StripeFault.None)]
    [InlineData(StripeFault.TooMany)]
    public async Task What_the_owner_gave_back_is_not_asked_for_again(StripeFault fault)
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        if (fault != StripeFault.None)
        {
            paying.Stripe.Fail("/v1/refunds", fault);
        }

        await paying.Shop.PostJson(
            $"/api/orders/{PayingShop.Id(order)}/refunds",
            new { amount = new { amount = 100, currency = "EUR" } }
        );
        var session = await AskForTheRest(paying, order);
        Assert.Equal(420, paying.Stripe.Sessions[session].Amount);
        paying.Stripe.Pay(session);
        await paying.ComeBack(order);
        await paying.Tick(TimeSpan.FromMinutes(3));

        Assert.True((await paying.Read(order)).GetProperty("paid").GetBoolean());
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 100);
    }

    [Theory]
    [InlineData(StripeFault.None)]
    [InlineData(StripeFault.TooMany)]
    [InlineData(StripeFault.Declined)]
    public async Task A_deposit_paid_twice_lowers_no_rest(StripeFault fault)
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        paying.Stripe.Fail("/v1/checkout", StripeFault.SilentAfter);
        var order = await paying.Order();
        await paying.Tick(TimeSpan.FromMinutes(3));
        var lost = paying.Stripe.Sessions.Keys.First();
        paying.Stripe.Pay(PayingShop.SessionOf(await paying.Read(order)));
        await paying.ComeBack(order);
        if (fault != StripeFault.None)
        {
            paying.Stripe.Fail("/v1/refunds", fault);
        }

        paying.Stripe.PayAfterAll(lost);
        await paying.TellOfSession(lost);
        await paying.Shop.Tick("work-stripe-events");
        if (fault == StripeFault.Declined)
        {
            // The owner does it there.
            var byHand = paying.Stripe.RefundByHand(paying.Stripe.Sessions[lost].PaymentId!, 280);
            await paying.Tell("refund.created", byHand.Shape());
            await paying.Shop.Tick("work-stripe-events");
        }

        Assert.Equal(420, paying.Stripe.Sessions[await AskForTheRest(paying, order)].Amount);
    }

    [Fact]
    public async Task A_deposit_lost_in_a_dispute_is_still_owed()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();
        var dispute = paying.Stripe.OpenDispute(paying.Stripe.Sessions.Values.Single().PaymentId!, 280);
        dispute.Status = "lost";
        await paying.Tell("charge.dispute.closed", dispute.Shape());
        await paying.Tick();

        Assert.Equal(700, paying.Stripe.Sessions[await AskForTheRest(paying, order)].Amount);
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.9)]
    public async Task Where_the_deposit_or_the_rest_is_too_small_for_a_card_the_whole_is_paid_at_once(double share)
    {
        await using var paying = await PayingShop.Open(payment: new { depositShare = share });
        var order = await paying.PaidOrder(quantity: 1);

        Assert.Equal(350, paying.Stripe.Charged);
        Assert.True((await paying.Read(order)).GetProperty("paid").GetBoolean());
    }

    /// <summary>The deposit comes from the newest payment first, by the shop's terms.</summary>
    [Fact]
    public async Task An_order_cancelled_by_the_shop_gives_back_the_deposit()
    {
        await using var paying = await PayingShop.Open(payment: Terms);
        var order = await paying.PaidOrder();

        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/cancel", new { });

        await CardFacts.Balanced(paying, order, captured: 280, refunded: 280);
    }

    private static async Task PayTheRest(PayingShop paying, JsonElement order)
    {
        Assert.True(paying.Stripe.Pay(await AskForTheRest(paying, order)));
        await paying.ComeBack(order);
    }

    /// <summary>As the buyer does, from the page of the order.</summary>
    internal static async Task<string> AskForTheRest(PayingShop paying, JsonElement order)
    {
        using var buyer = new Visitor(paying.Shop);
        var page = $"/orders/{PayingShop.Id(order)}";
        var sent = await buyer.PostFrom(page, $"{page}/pay");
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        return PayingShop.SessionOf(await paying.Read(order));
    }
}

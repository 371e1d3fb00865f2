using System.Text.Json;

namespace ReedShop.Tests.Payments;

/// <summary>
/// The program as it is set where nobody sets it otherwise: a request that got no clear answer is made once more at once,
/// under the same key. What that does not mend, a later minute does, and all of it is done once.
/// </summary>
public sealed class RepeatFacts
{
    public static TheoryData<StripeFault> Faults =>
        [StripeFault.TooMany, StripeFault.Broken, StripeFault.BrokenAfter, StripeFault.SilentAfter];

    /// <summary>The repeat itself mends a lost answer alone: a 500 is all that its key will be answered, a 429 waits.</summary>
    [Theory]
    [MemberData(nameof(Faults))]
    public async Task An_order_is_paid_and_confirmed_once(StripeFault fault)
    {
        await using var paying = await Open();
        paying.Stripe.Fail("/v1/checkout", fault);

        var order = await paying.Order();
        Assert.Equal(fault == StripeFault.SilentAfter, order.TryGetProperty("payUrl", out _));
        await paying.Tick(TimeSpan.FromMinutes(1));
        var session = PayingShop.SessionOf(await paying.Read(order));
        Assert.True(paying.Stripe.Pay(session));
        paying.Stripe.Fail("/v1/checkout", fault);
        await paying.ComeBack(order);
        await Later(paying);

        Assert.Equal("ready", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
        Assert.Equal(700, paying.Stripe.Charged);
        Assert.Single(await paying.Letters(), kind => kind == "order-confirmed");
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task A_refund_is_made_once(StripeFault fault)
    {
        await using var paying = await Open();
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", fault);

        await GiveBack(paying, order);
        Assert.Equal(fault == StripeFault.SilentAfter ? 0 : 700, await Waiting(paying, order));
        await Later(paying);

        await AssertGoneOnce(paying, order);
    }

    /// <summary>It was made, and neither its answer came nor that to the repeat; then the list that would say so fails.</summary>
    [Theory]
    [MemberData(nameof(Faults))]
    public async Task A_refund_that_was_made_unheard_is_found_once_the_list_of_refunds_can_be_read(StripeFault fault)
    {
        await using var paying = await Open();
        var order = await paying.PaidOrder();
        FailTwice(paying, "/v1/refunds", StripeFault.SilentAfter);
        await GiveBack(paying, order);
        Assert.Single(paying.Stripe.Refunds);

        FailTwice(paying, "/v1/refunds", fault);
        await paying.Tick(TimeSpan.FromMinutes(3));
        Assert.Equal(700, await Waiting(paying, order));
        await Later(paying);

        await AssertGoneOnce(paying, order);
    }

    [Theory]
    [InlineData(StripeFault.TooMany)]
    [InlineData(StripeFault.Broken)]
    [InlineData(StripeFault.BrokenAfter)]
    [InlineData(StripeFault.SilentAfter)]
    public async Task The_session_of_a_cancelled_order_is_closed_while_it_could_still_be_paid(StripeFault fault)
    {
        await using var paying = await Open();
        var order = await paying.Order();
        FailTwice(paying, Closing(order), fault);

        await paying.CancelAsBuyer(order);
        for (var n = 0; n < 3; n++)
        {
            await paying.Tick(TimeSpan.FromMinutes(6));
        }

        Assert.False(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        Assert.Equal("cancelled", await paying.Status(order));
        Assert.Equal(0, paying.Stripe.Charged);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task What_is_paid_before_the_session_of_a_cancelled_order_could_be_closed_goes_back_once(
        StripeFault fault
    )
    {
        await using var paying = await Open();
        var order = await paying.Order();
        FailTwice(paying, Closing(order), fault);
        await paying.CancelAsBuyer(order);

        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await Later(paying);

        Assert.Equal("cancelled", await paying.Status(order));
        await AssertGoneOnce(paying, order);
    }

    [Theory]
    [MemberData(nameof(Faults))]
    public async Task A_dispute_that_could_not_be_read_is_flagged_once_and_counted_once(StripeFault fault)
    {
        await using var paying = await Open();
        var order = await paying.PaidOrder();
        var dispute = paying.Stripe.OpenDispute(paying.Stripe.Sessions[PayingShop.SessionOf(order)].PaymentId!, 700);

        FailTwice(paying, "/v1/disputes", fault);
        await paying.Tell("charge.dispute.created", dispute.Shape());
        await paying.Tick();
        Assert.Empty(await paying.Letters("maker@example.org"));
        await Later(paying);
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));

        dispute.Status = "lost";
        FailTwice(paying, "/v1/disputes", fault);
        await paying.Tell("charge.dispute.closed", dispute.Shape());
        await paying.Tick();
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
        await Later(paying);

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
        Assert.Empty(paying.Stripe.Refunds);
    }

    private static async Task<PayingShop> Open()
    {
        var paying = await PayingShop.Open();
        await paying.Shop.Restart(("ReedShop:Stripe:Repeats", "1"), ("ReedShop:Stripe:TimeoutSeconds", "3"));
        return paying;
    }

    private static string Closing(JsonElement order) => $"/v1/checkout/sessions/{PayingShop.SessionOf(order)}/expire";

    /// <summary>Also at the repeat.</summary>
    private static void FailTwice(PayingShop paying, string path, StripeFault fault)
    {
        paying.Stripe.Fail(path, fault);
        paying.Stripe.Fail(path, fault);
    }

    /// <summary>Long enough for whatever is tried again in ever longer pauses.</summary>
    private static async Task Later(PayingShop paying)
    {
        for (var n = 0; n < 4; n++)
        {
            await paying.Tick(TimeSpan.FromMinutes(10));
        }
    }

    private static Task<JsonElement> GiveBack(PayingShop paying, JsonElement order) =>
        paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/refunds", new { });

    private static async Task<long> Waiting(PayingShop paying, JsonElement order) =>
        PayingShop.Amount(await paying.Money(order), "waiting");

    private static async Task AssertGoneOnce(PayingShop paying, JsonElement order)
    {
        Assert.Single(paying.Stripe.Refunds);
        Assert.Equal(700, paying.Stripe.GivenBack);
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Single(await paying.Letters(), kind => kind == "refunded");
    }
}

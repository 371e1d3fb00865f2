namespace ReedShop.Tests.Payments;

/// <summary>Money that comes after its order has ended.</summary>
public sealed class LatePaymentFacts
{
    [Fact]
    public async Task It_is_promised_afresh_while_the_same_date_can_still_be_kept()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order();
        await Expire(paying);

        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
        await paying.Tick();

        var read = await paying.Read(order);
        Assert.Equal("ready", read.GetProperty("status").GetString());
        Assert.Equal(order.GetProperty("shipBy").GetString(), read.GetProperty("shipBy").GetString());
        Assert.Contains("order-confirmed", await paying.Letters());
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
    }

    [Fact]
    public async Task It_goes_back_in_full_with_a_message_where_somebody_else_has_the_reeds()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order();
        await Expire(paying);
        await paying.PaidOrder(email: "ben@example.org");

        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
        await paying.Tick();

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(["payment-wanted", "payment-expired", "paid-too-late", "refunded"], await paying.Letters());
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Equal(700, paying.Stripe.GivenBack);
    }

    [Fact]
    public async Task A_cancelled_order_is_never_taken_up_again()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        await paying.CancelAsBuyer(order);

        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
        await paying.Tick();

        Assert.Equal("cancelled", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
    }

    private static async Task Expire(PayingShop paying)
    {
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(32));
        await paying.Tick();
    }
}

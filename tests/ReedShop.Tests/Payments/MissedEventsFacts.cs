using System.Text.Json;

namespace ReedShop.Tests.Payments;

/// <summary>Words of Stripe that never came, or that could not be worked for long.</summary>
public sealed class MissedEventsFacts
{
    private const string Fetch = "fetch-missed-events";

    [Fact]
    public async Task A_refund_made_at_Stripe_is_known_though_no_webhook_works()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var refund = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, order), 200);
        paying.Lose("refund.created", refund.Shape());
        paying.Lose("charge.refunded", Charge(RefundFacts.PaymentOf(paying, order)));
        paying.Lose("customer.created", new { id = "cus_1", @object = "customer" });

        await paying.Shop.Tick(Fetch);
        await paying.Tick();
        await Later(paying);

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 200);
        Assert.Single(await paying.Letters(), kind => kind == "refunded");
    }

    [Fact]
    public async Task A_dispute_is_known_though_no_webhook_works()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var dispute = paying.Stripe.OpenDispute(RefundFacts.PaymentOf(paying, order), 700);
        paying.Lose("charge.dispute.created", dispute.Shape());

        await paying.Shop.Tick(Fetch);
        await paying.Tick();

        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
    }

    [Fact]
    public async Task A_payment_after_the_order_ended_goes_back_though_no_webhook_works()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        await paying.CancelAsBuyer(order);
        await paying.Tick(TimeSpan.FromMinutes(40));
        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        paying.Lose("checkout.session.completed", paying.Stripe.Sessions[PayingShop.SessionOf(order)].Shape());

        await paying.Shop.Tick(Fetch);
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
    }

    [Fact]
    public async Task After_an_outage_of_days_what_came_since_hides_nothing_that_was_lost_before()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var other = await paying.PaidOrder(1, "bea@example.org");
        var lost = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, order), 200);
        paying.Lose("refund.created", lost.Shape());
        paying.Shop.Time.Advance(TimeSpan.FromDays(3));
        var told = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, other), 100);
        await paying.Tell("refund.created", told.Shape());
        paying.Stripe.Fail("/v1/events", StripeFault.Broken);

        await paying.Shop.Tick(Fetch);
        await Later(paying);

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 200);
        await CardFacts.Balanced(paying, other, captured: 350, refunded: 100);
    }

    [Fact]
    public async Task Stripe_is_asked_for_them_once_an_hour()
    {
        await using var paying = await PayingShop.Open();
        await paying.Shop.Tick(Fetch);
        var asked = paying.Stripe.Requests;

        paying.Shop.Time.Advance(TimeSpan.FromMinutes(59));
        await paying.Shop.Tick(Fetch);
        Assert.Equal(asked, paying.Stripe.Requests);
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(1));
        await paying.Shop.Tick(Fetch);

        Assert.Equal(asked + 1, paying.Stripe.Requests);
    }

    [Fact]
    public async Task A_word_that_failed_for_days_stands_on_the_page_and_is_worked_once_Stripe_answers()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var refund = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, order), 200);
        paying.Stripe.IsShut = true;
        await paying.Tell("refund.created", refund.Shape());
        for (var hours = 0; hours < 108; hours += 9)
        {
            await paying.Tick(TimeSpan.FromHours(9));
            await paying.Tick(TimeSpan.FromMinutes(1));
        }

        using (var owner = await Visitor.Owner(paying.Shop))
        {
            var page = await owner.Read("/bench/money");
            Assert.Contains("Stripe told of refund.created", page, StringComparison.Ordinal);
        }

        paying.Stripe.IsShut = false;
        await paying.Tick(TimeSpan.FromHours(9));

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 200);
    }

    private static async Task Later(PayingShop paying)
    {
        paying.Shop.Time.Advance(TimeSpan.FromHours(2));
        await paying.Shop.Tick(Fetch);
        await paying.Tick();
    }

    private static object Charge(string payment) =>
        new
        {
            id = $"ch_{payment}",
            @object = "charge",
            payment_intent = payment,
        };
}

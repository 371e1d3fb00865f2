using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Platform.Storage;

namespace ReedShop.Tests.Payments;

/// <summary>Payments that do not settle by themselves: none may hold evenings for ever, or stand in the way of another.</summary>
public sealed class StuckPaymentFacts
{
    private const string OwnersLetters = "maker@example.org";

    [Fact]
    public async Task A_session_that_Stripe_does_not_know_ends_its_order_once_its_time_is_over()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order();
        paying.Stripe.Sessions.Remove(PayingShop.SessionOf(order));

        await paying.Tick(TimeSpan.FromMinutes(6));
        Assert.Equal("awaitingPayment", await paying.Status(order));
        await paying.Tick(TimeSpan.FromMinutes(32));
        await paying.Tick(TimeSpan.FromMinutes(2));

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(["payment-trouble"], await paying.Letters(OwnersLetters));
        Assert.Contains("payment-expired", await paying.Letters());
        await paying.PaidOrder(email: "ben@example.org");
    }

    [Fact]
    public async Task A_payment_of_another_amount_ends_its_order_and_only_the_owner_hears_of_it()
    {
        await using var paying = await PayingShop.Open(drawer: 2);
        var order = await paying.Order();
        var session = paying.Stripe.Sessions[PayingShop.SessionOf(order)];
        session.Amount--;
        paying.Stripe.Pay(session.Id);

        await paying.Tick(TimeSpan.FromMinutes(33));
        await paying.Tick(TimeSpan.FromMinutes(2));

        Assert.Equal("expired", await paying.Status(order));
        Assert.Equal(["payment-trouble"], await paying.Letters(OwnersLetters));
        Assert.DoesNotContain("payment-expired", await paying.Letters());
    }

    [Fact]
    public async Task After_an_hour_of_faults_the_owner_is_told_once_and_the_page_Money_says_why()
    {
        await using var paying = await PayingShop.Open();
        using var owner = await Visitor.Owner(paying.Shop);
        var order = await paying.Order();
        paying.Stripe.IsShut = true;

        await paying.Tick(TimeSpan.FromMinutes(33));
        Assert.Empty(await paying.Letters(OwnersLetters));
        Assert.Contains("Stripe answered 401", await owner.Read("/bench/money"), StringComparison.Ordinal);
        await paying.Tick(TimeSpan.FromMinutes(70));
        await paying.Tick(TimeSpan.FromMinutes(2));

        Assert.Equal(["payment-trouble"], await paying.Letters(OwnersLetters));
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Stripe.IsShut = false;
        await paying.Tick(TimeSpan.FromMinutes(2));
        Assert.Equal("expired", await paying.Status(order));
        Assert.Contains("Nothing waits for you", await owner.Read("/bench/money"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task One_order_that_cannot_be_settled_stands_in_the_way_of_no_other(bool byEvent)
    {
        await using var paying = await PayingShop.Open();
        var (broken, other) = (await paying.Order(), await paying.Order(email: "ben@example.org"));
        await Write(paying, "payment-expired", $"order {Number(broken)}");
        if (byEvent)
        {
            await paying.TellOfSession(PayingShop.SessionOf(broken), "checkout.session.expired");
            await paying.TellOfSession(PayingShop.SessionOf(other), "checkout.session.expired");
        }

        paying.Shop.Time.Advance(TimeSpan.FromMinutes(33));
        await paying.Shop.Tick(byEvent ? "work-stripe-events" : "reconcile-payments");

        Assert.Equal("expired", await paying.Status(other));
        Assert.Equal("awaitingPayment", await paying.Status(broken));
    }

    [Fact]
    public async Task One_refund_that_cannot_be_written_down_stands_in_the_way_of_no_other()
    {
        await using var paying = await PayingShop.Open();
        var (broken, other) = (await paying.PaidOrder(), await paying.PaidOrder(email: "ben@example.org"));
        foreach (var order in new[] { broken, other })
        {
            paying.Stripe.Fail("/v1/refunds", StripeFault.TooMany);
            await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/refunds", new { });
        }

        var refund = (await paying.Money(broken)).GetProperty("refunds")[0].GetProperty("id").GetString()!;
        await Write(paying, "refunded", $"order {Number(broken)}, refund {refund[..8]}");
        await paying.Tick(TimeSpan.FromMinutes(3));

        await CardFacts.Balanced(paying, other, captured: 700, refunded: 700);
        Assert.Equal(700, PayingShop.Amount(await paying.Money(broken), "waiting"));
    }

    [Fact]
    public async Task Two_payments_too_late_for_one_order_both_go_back_each_with_its_letter()
    {
        await using var paying = await PayingShop.Open();
        paying.Stripe.Fail("/v1/checkout", StripeFault.SilentAfter);
        var order = await paying.Order();
        await paying.Tick(TimeSpan.FromMinutes(3));
        await paying.CancelAsBuyer(order);
        foreach (var session in paying.Stripe.Sessions.Keys.ToArray())
        {
            paying.Stripe.PayAfterAll(session);
            await paying.TellOfSession(session);
        }

        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 1400, refunded: 1400);
        Assert.Equal(2, (await paying.Letters()).Count(kind => kind == "paid-too-late"));
    }

    private static int Number(JsonElement order) => order.GetProperty("number").GetInt32();

    /// <summary>A letter that stands there already: what writes it again meets the fault.</summary>
    private static async Task Write(PayingShop paying, string kind, string subject)
    {
        await using var scope = paying.Shop.Services.CreateAsyncScope();
        var outbox = scope.ServiceProvider.GetRequiredService<OutboxStore>();
        outbox.Add(kind, subject, "nobody@example.org", "A letter", "A letter");
        await outbox.Save(TestContext.Current.CancellationToken);
    }
}

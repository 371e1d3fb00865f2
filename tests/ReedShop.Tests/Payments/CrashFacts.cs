using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ReedShop.Checkout;
using ReedShop.Orders;

namespace ReedShop.Tests.Payments;

/// <summary>
/// The program dies before and after every write and every request to Stripe on the way of a payment. After a restart the
/// reconciliation brings the order to where it belongs, once.
/// </summary>
public sealed class CrashFacts
{
    private const int MostBoundaries = 40;

    [Fact]
    public async Task Wherever_it_dies_between_charge_and_confirmation_the_order_is_confirmed_once()
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 500, configure: death.Configure);
        var died = 0;
        for (var boundary = 1; boundary <= MostBoundaries; boundary++)
        {
            var order = await paying.Order(1, Email(boundary));
            paying.Stripe.Pay(PayingShop.SessionOf(order));
            var isDead = await death.Watch(boundary, () => paying.Tick(TimeSpan.FromMinutes(6)));
            await Restart(paying, death);

            Assert.Equal("ready", await paying.Status(order));
            await CardFacts.Balanced(paying, order, captured: 350, refunded: 0);
            Assert.Single(await paying.Letters(Email(boundary)), kind => kind == "order-confirmed");
            if (!isDead)
            {
                break;
            }

            died++;
        }

        Assert.InRange(died, 4, MostBoundaries - 1);
        Assert.Empty(paying.Stripe.Refunds);
        Assert.Equal(paying.Stripe.Sessions.Count * 350, paying.Stripe.Charged);
    }

    [Fact]
    public async Task Wherever_it_dies_on_the_way_of_a_late_payment_it_is_refunded_once()
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 1, configure: death.Configure);
        var orders = new List<JsonElement>();
        var died = 0;
        for (var boundary = 1; boundary <= MostBoundaries; boundary++)
        {
            var order = await paying.Order(1, Email(boundary));
            orders.Add(order);
            await paying.CancelAsBuyer(order);
            paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
            await paying.TellOfSession(PayingShop.SessionOf(order));
            var isDead = await death.Watch(boundary, () => paying.Tick(TimeSpan.Zero));
            await Restart(paying, death);

            await CardFacts.Balanced(paying, order, captured: 350, refunded: 350);
            Assert.Single(await paying.Letters(Email(boundary)), kind => kind == "refunded");
            if (!isDead)
            {
                break;
            }

            died++;
        }

        Assert.InRange(died, 10, MostBoundaries - 1);
        Assert.Equal(orders.Count * 350, paying.Stripe.GivenBack);
        Assert.Equal(orders.Count, paying.Stripe.Refunds.Count);
    }

    [Fact]
    public async Task Wherever_it_dies_while_an_order_is_taken_there_is_one_order_or_none_and_one_page_to_pay_at()
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 500, configure: death.Configure);
        for (var boundary = 1; boundary <= MostBoundaries; boundary++)
        {
            var quote = await paying.Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 1)));
            var wish = new OrderWish(
                PayingShop.Id(quote),
                new Buyer("Ana Example", Email(boundary)),
                new PostalAddress("1 Quay", "Harbour", "1000-001", "PT")
            );
            var isDead = await death.Watch(
                boundary,
                () => paying.Shop.Within(services => services.GetRequiredService<Accepting>().Accept(wish, default))
            );
            await Restart(paying, death);

            // The buyer, who saw nothing, sends the form again.
            var again = await paying.Shop.Within(services =>
                services.GetRequiredService<Accepting>().Accept(wish, default)
            );
            Assert.NotNull(again.Value.PayUrl);
            Assert.Equal(OrderStage.AwaitingPayment, again.Value.Status);
            if (!isDead)
            {
                break;
            }
        }

        var list = await paying.Shop.GetJson("/api/orders?limit=500");
        Assert.InRange(list.GetProperty("items").GetArrayLength(), 3, MostBoundaries - 1);
        Assert.Equal(list.GetProperty("items").GetArrayLength(), paying.Stripe.Sessions.Count);
    }

    private static string Email(int boundary) => $"buyer{boundary}@example.org";

    /// <summary>Whoever starts it again does so at once, and the reconciliation goes on.</summary>
    private static async Task Restart(PayingShop paying, Death death)
    {
        death.Revive();
        await paying.Shop.Restart();
        await paying.Tick(TimeSpan.FromSeconds(20));
        await paying.Tick(TimeSpan.FromMinutes(6));
    }
}

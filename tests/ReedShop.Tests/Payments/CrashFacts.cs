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
    private const int MostBoundaries = 60;

    private static TimeSpan UntilExpired => TimeSpan.FromMinutes(32);

    [Theory]
    [InlineData("reconciliation")]
    [InlineData("webhook")]
    [InlineData("return")]
    public async Task Wherever_it_dies_between_charge_and_confirmation_the_order_is_confirmed_once(string learnsBy)
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 500, configure: death.Configure);

        await DieEverywhere(
            paying,
            death,
            async email =>
            {
                var order = await paying.Order(1, email);
                Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
                if (learnsBy == "webhook")
                {
                    await paying.TellOfSession(PayingShop.SessionOf(order));
                }

                return order;
            },
            order =>
                learnsBy switch
                {
                    "webhook" => paying.Shop.Tick("work-stripe-events"),
                    "return" => paying.ComeBack(order),
                    _ => paying.Tick(TimeSpan.FromMinutes(6)),
                },
            (order, email) => AssertConfirmedOnce(paying, order, email),
            least: 4
        );

        Assert.Empty(paying.Stripe.Refunds);
        Assert.Equal(paying.Stripe.Sessions.Count * 350, paying.Stripe.Charged);
    }

    [Fact]
    public async Task Wherever_it_dies_on_the_way_of_a_payment_after_the_order_expired_it_is_promised_afresh_once()
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 500, configure: death.Configure);

        await DieEverywhere(
            paying,
            death,
            async email =>
            {
                var order = await paying.Order(1, email);
                await paying.Tick(UntilExpired);
                Assert.Equal("expired", await paying.Status(order));
                await PayAfterAll(paying, order);
                return order;
            },
            _ => paying.Shop.Tick("work-stripe-events"),
            async (order, email) =>
            {
                await AssertConfirmedOnce(paying, order, email);
                Assert.Equal(
                    order.GetProperty("shipBy").GetString(),
                    (await paying.Read(order)).GetProperty("shipBy").GetString()
                );
            },
            least: 4
        );

        Assert.Empty(paying.Stripe.Refunds);
        Assert.Equal(paying.Stripe.Sessions.Count * 350, paying.Stripe.Charged);
    }

    /// <summary>The only reed was given up, and then paid: by a buyer who had cancelled, or once somebody else had it.</summary>
    [Theory]
    [InlineData("cancelled")]
    [InlineData("expired")]
    public async Task Wherever_it_dies_on_the_way_of_a_late_payment_it_is_refunded_once(string end)
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(drawer: 1, configure: death.Configure);

        var orders = await DieEverywhere(
            paying,
            death,
            async email =>
            {
                // Whoever had the reed in the round before has not paid for it.
                await paying.Tick(UntilExpired);
                var order = await paying.Order(1, email);
                if (end == "cancelled")
                {
                    await paying.CancelAsBuyer(order);
                }
                else
                {
                    await paying.Tick(UntilExpired);
                    await paying.Order(1, $"other-{email}");
                }

                await PayAfterAll(paying, order);
                return order;
            },
            _ => paying.Tick(),
            async (order, email) =>
            {
                Assert.Equal(end, await paying.Status(order));
                await CardFacts.Balanced(paying, order, captured: 350, refunded: 350);
                Assert.Single(await paying.Letters(email), kind => kind == "paid-too-late");
                Assert.Single(await paying.Letters(email), kind => kind == "refunded");
            },
            least: 10
        );

        Assert.Equal(orders * 350, paying.Stripe.GivenBack);
        Assert.Equal(orders, paying.Stripe.Refunds.Count);
    }

    [Fact]
    public async Task Wherever_it_dies_on_the_way_of_a_deposit_and_its_balance_each_is_paid_once()
    {
        var death = new Death();
        await using var paying = await PayingShop.Open(
            drawer: 500,
            payment: DepositFacts.Terms,
            configure: death.Configure
        );

        var orders = await DieEverywhere(
            paying,
            death,
            async email =>
            {
                var order = await paying.Order(1, email);
                Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
                return order;
            },
            async order =>
            {
                await paying.ComeBack(order);
                await PayTheRest(paying, order);
            },
            async (order, email) =>
            {
                // The buyer, who may have seen nothing, looks at the page of the order again.
                if (!(await paying.Read(order)).GetProperty("paid").GetBoolean())
                {
                    await PayTheRest(paying, order);
                }

                Assert.True((await paying.Read(order)).GetProperty("paid").GetBoolean());
                await AssertConfirmedOnce(paying, order, email);
            },
            least: 10
        );

        Assert.Empty(paying.Stripe.Refunds);
        Assert.Equal(orders * 350, paying.Stripe.Charged);
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

    /// <summary>One order for each boundary on its way, and a last one that nothing happens to.</summary>
    /// <param name="begin">What has happened before, for the buyer of that address.</param>
    /// <param name="watched">Where it dies.</param>
    /// <param name="assert">What holds in the end.</param>
    /// <param name="least">Boundaries there are at least.</param>
    /// <returns>The number of orders.</returns>
    private static async Task<int> DieEverywhere(
        PayingShop paying,
        Death death,
        Func<string, Task<JsonElement>> begin,
        Func<JsonElement, Task> watched,
        Func<JsonElement, string, Task> assert,
        int least
    )
    {
        for (var boundary = 1; boundary <= MostBoundaries; boundary++)
        {
            var order = await begin(Email(boundary));
            var isDead = await death.Watch(boundary, () => watched(order));
            await Restart(paying, death);

            await assert(order, Email(boundary));
            if (!isDead)
            {
                Assert.InRange(boundary - 1, least, MostBoundaries);
                return boundary;
            }
        }

        throw new InvalidOperationException($"There are more than {MostBoundaries} boundaries.");
    }

    private static async Task AssertConfirmedOnce(PayingShop paying, JsonElement order, string email)
    {
        Assert.Equal("ready", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 350, refunded: 0);
        Assert.Single(await paying.Letters(email), kind => kind == "order-confirmed");
    }

    /// <summary>Stripe says that the session was paid, which the shop had given up.</summary>
    private static async Task PayAfterAll(PayingShop paying, JsonElement order)
    {
        paying.Stripe.PayAfterAll(PayingShop.SessionOf(order));
        await paying.TellOfSession(PayingShop.SessionOf(order));
    }

    private static async Task PayTheRest(PayingShop paying, JsonElement order)
    {
        Assert.True(paying.Stripe.Pay(await DepositFacts.AskForTheRest(paying, order)));
        await paying.ComeBack(order);
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

using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using ReedShop.Payments;

namespace ReedShop.Tests.Payments;

/// <summary>
/// The real program is killed, as by `kill -9`, while Stripe has done what it was asked and the answer is on its way, or
/// right after it answered itself. Started again some minutes later it goes on from what it wrote down before.
/// </summary>
public sealed class KillFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Killed_while_a_session_is_opened_there_is_one_order_and_one_page_to_pay_at()
    {
        await using var paying = await OpenNow();
        var quote = await paying.Shop.PostJson("/api/quotes", ExampleReeds.Lines((3.5, 2)));
        var wish = PayingShop.Wish(quote, "ana@example.org");

        await Killed(paying, "POST /v1/checkout/sessions", shop => Post(shop, "/api/orders", wish));
        var order = await ShopHost.Read(await ShopHost.Send(paying.Shop.Guest, HttpMethod.Post, "/api/orders", wish));
        Assert.True(paying.Stripe.Pay(PayingShop.SessionOf(order)));
        await paying.ComeBack(order);

        var orders = await paying.Shop.GetJson("/api/orders?limit=10");
        Assert.Equal(1, orders.GetProperty("items").GetArrayLength());
        await AssertTaken(paying, order);
    }

    [Fact]
    public async Task Killed_while_it_asks_about_a_payment_the_order_is_confirmed_once()
    {
        await using var paying = await OpenNow();
        var order = await paying.Order();
        var session = PayingShop.SessionOf(order);
        Assert.True(paying.Stripe.Pay(session));

        await Killed(
            paying,
            $"GET /v1/checkout/sessions/{session}",
            shop => shop.Guest.GetAsync($"/orders/{PayingShop.Id(order)}/paid", Cancel)
        );
        await paying.Tick(TimeSpan.FromMinutes(6));

        await AssertTaken(paying, order);
    }

    [Fact]
    public async Task Killed_right_after_it_answered_a_webhook_the_word_is_worked_later()
    {
        await using var paying = await OpenNow();
        var order = await paying.Order();
        var session = PayingShop.SessionOf(order);
        Assert.True(paying.Stripe.Pay(session));
        var body = PayingShop.Event("checkout.session.completed", paying.Stripe.Sessions[session].Shape(), "evt_1");

        await paying.Shop.Stop();
        await using (var shop = await ShopProcess.Start(paying.Shop.Folder, WithoutTicks(paying), Cancel))
        {
            using var content = new StringContent(body, Encoding.UTF8, new MediaTypeHeaderValue("application/json"));
            content.Headers.Add(StripeSignature.Header, PayingShop.Sign(body, TimeProvider.System.GetUtcNow()));
            var answer = await shop.Guest.PostAsync("/webhooks/stripe", content, Cancel);
            Assert.True(answer.IsSuccessStatusCode);
            shop.Kill();
        }

        await paying.Shop.Restart();
        Assert.Equal("awaitingPayment", await paying.Status(order));
        paying.Shop.Time.Advance(TimeSpan.FromMinutes(1));
        await paying.Shop.Tick("work-stripe-events");

        await AssertTaken(paying, order);
    }

    [Fact]
    public async Task Killed_while_a_refund_is_asked_for_the_money_goes_back_once()
    {
        await using var paying = await OpenNow();
        var order = await paying.PaidOrder();

        await Killed(
            paying,
            "POST /v1/refunds",
            shop => Post(shop, $"/api/orders/{PayingShop.Id(order)}/cancel", new { })
        );
        await paying.Tick(TimeSpan.FromMinutes(10));
        await paying.Tick(TimeSpan.FromMinutes(10));

        Assert.Single(paying.Stripe.Refunds);
        Assert.Equal(700, paying.Stripe.GivenBack);
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Single(await paying.Letters(), kind => kind == "refunded");
    }

    /// <summary>The clock of the harness begins with that of the machine, by which the process works.</summary>
    private static Task<PayingShop> OpenNow() => PayingShop.Open(now: TimeProvider.System.GetUtcNow());

    /// <summary>Runs the program beside the harness, which stands still, until Stripe has done that request.</summary>
    private static async Task Killed(
        PayingShop paying,
        string request,
        Func<ShopProcess, Task<HttpResponseMessage>> work
    )
    {
        var isKilled = false;
        await paying.Shop.Stop();
        await using (var shop = await ShopProcess.Start(paying.Shop.Folder, WithoutTicks(paying), Cancel))
        {
            paying.Stripe.Done = done =>
            {
                if (done == request)
                {
                    paying.Stripe.Done = null;
                    isKilled = true;
                    shop.Kill();
                }
            };
            await Assert.ThrowsAsync<HttpRequestException>(() => work(shop));
        }

        Assert.True(isKilled);
        await paying.Shop.Restart();
    }

    private static IEnumerable<(string Name, string? Value)> WithoutTicks(PayingShop paying) =>
        [.. paying.Stripe.Settings, ("ReedShop:Ticks", "false")];

    private static Task<HttpResponseMessage> Post(ShopProcess shop, string path, object body) =>
        ShopHost.Send(shop.Guest, HttpMethod.Post, path, body);

    private static async Task AssertTaken(PayingShop paying, JsonElement order)
    {
        Assert.Equal("ready", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 0);
        Assert.Single(await paying.Letters(), kind => kind == "order-confirmed");
        Assert.Single(paying.Stripe.Sessions);
        Assert.Equal(700, paying.Stripe.Charged);
        Assert.Empty(paying.Stripe.Refunds);
    }
}

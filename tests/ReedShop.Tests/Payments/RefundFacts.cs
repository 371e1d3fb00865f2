using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Payments;

public sealed class RefundFacts
{
    [Fact]
    public async Task Before_the_first_sitting_a_buyer_cancels_at_no_cost()
    {
        await using var paying = await PayingShop.Open(payment: new { keptShare = 0.3 });
        var order = await paying.PaidOrder();

        await paying.CancelAsBuyer(order);

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        Assert.Contains("refunded", await paying.Letters());
    }

    [Theory]
    [InlineData(true, 1050 - 315)]
    [InlineData(false, 1050)]
    public async Task After_the_first_sitting_the_shop_keeps_its_share_unless_it_cancels_itself(bool byBuyer, long back)
    {
        await using var paying = await PayingShop.Open(drawer: 0, payment: new { keptShare = 0.3 });
        await ExampleReeds.FillHistory(paying.Shop);
        var order = await paying.PaidOrder(quantity: 3);
        Assert.Equal("accepted", await paying.Status(order));
        var maker = new ExampleMaker(paying.Shop);
        await maker.WorkUntil(async () => await paying.Status(order) == "onBench", mostDays: 10);

        await (
            byBuyer
                ? paying.CancelAsBuyer(order)
                : paying.Shop.Send(HttpMethod.Post, $"/api/orders/{PayingShop.Id(order)}/cancel", new { })
        );

        Assert.Equal("cancelled", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 1050, refunded: back);
    }

    [Fact]
    public async Task The_owner_gives_back_a_part_and_then_the_rest_and_never_more()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();

        await GiveBack(paying, order, 250);
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 250);
        await ShopHost.ReadProblem(await Send(paying, order, 451), HttpStatusCode.UnprocessableEntity, "invalid-value");
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/refunds", new { note = "The rest." });

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        await ShopHost.ReadProblem(await Send(paying, order, 1), HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal(2, paying.Stripe.Refunds.Count);
    }

    [Fact]
    public async Task Goodwill_after_shipping_is_told_apart()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        await GiveBack(paying, order, 100);
        await paying.Shop.PostJson($"/api/orders/{PayingShop.Id(order)}/ship", new { });

        var money = await GiveBack(paying, order, 50);

        Assert.Equal(150, PayingShop.Amount(money, "refunded"));
        Assert.Equal(50, PayingShop.Amount(money, "goodwill"));
        Assert.True(money.GetProperty("papers")[2].GetProperty("isGoodwill").GetBoolean());
    }

    [Theory]
    [InlineData(StripeFault.TooMany)]
    [InlineData(StripeFault.Broken)]
    [InlineData(StripeFault.BrokenAfter)]
    [InlineData(StripeFault.SilentAfter)]
    public async Task A_refund_without_a_clear_answer_is_done_once(StripeFault fault)
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", fault);

        var money = await GiveBack(paying, order, 300);
        Assert.Equal(0, PayingShop.Amount(money, "refunded"));
        Assert.Equal(300, PayingShop.Amount(money, "waiting"));
        // Later than Stripe remembers keys.
        paying.Shop.Time.Advance(TimeSpan.FromHours(30));
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 300);
        Assert.Equal(300, paying.Stripe.GivenBack);
        Assert.Single(await paying.Letters(), kind => kind == "refunded");
    }

    [Fact]
    public async Task A_refund_that_Stripe_refuses_waits_for_the_owner()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", StripeFault.Declined);

        var money = await GiveBack(paying, order, 300);

        var refund = Assert.Single(money.GetProperty("refunds").EnumerateArray());
        Assert.Equal("refused", refund.GetProperty("state").GetString());
        Assert.Contains("402", refund.GetProperty("fault").GetString(), StringComparison.Ordinal);
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
        await paying.Shop.PostJson(Address(order, refund, "again"), new { });
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 300);
        Assert.Equal(300, paying.Stripe.GivenBack);
    }

    [Theory]
    [InlineData(StripeFault.Broken)]
    [InlineData(StripeFault.BrokenAfter)]
    public async Task A_refund_at_which_Stripe_broke_is_done_once_and_soon(StripeFault fault)
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", fault);
        await GiveBack(paying, order, 300);

        await paying.Tick(TimeSpan.FromMinutes(5));

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 300);
        Assert.Equal(300, paying.Stripe.GivenBack);
    }

    [Fact]
    public async Task A_refund_on_its_way_to_a_card_cannot_be_paid_back_by_hand()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", StripeFault.TooMany);
        var refund = (await GiveBack(paying, order, 300)).GetProperty("refunds")[0];

        var refused = await paying.Shop.Send(HttpMethod.Post, Address(order, refund, "paid-back"), new { });
        await ShopHost.ReadProblem(refused, HttpStatusCode.Conflict, "wrong-stage");
        await paying.Tick(TimeSpan.FromMinutes(3));

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 300);
        Assert.Equal(300, paying.Stripe.GivenBack);
    }

    [Fact]
    public async Task What_Stripe_did_after_all_is_seen_before_it_is_paid_back_by_hand()
    {
        await using var paying = await PayingShop.Open();
        var (order, refund) = await Refused(paying);
        paying.Stripe.Refunds.Add(
            new StandInRefund("re_after_all", PaymentOf(paying, order), 300, PayingShop.Id(refund))
        );

        var refused = await paying.Shop.Send(HttpMethod.Post, Address(order, refund, "paid-back"), new { });

        await ShopHost.ReadProblem(refused, HttpStatusCode.Conflict, "wrong-stage");
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 300);
    }

    [Fact]
    public async Task What_Stripe_did_after_it_was_paid_back_by_hand_stands_in_the_book_too()
    {
        await using var paying = await PayingShop.Open();
        var (order, refund) = await Refused(paying);
        await paying.Shop.PostJson(Address(order, refund, "paid-back"), new { });
        var after = new StandInRefund("re_after_all", PaymentOf(paying, order), 300, PayingShop.Id(refund));
        paying.Stripe.Refunds.Add(after);

        await paying.Tell("refund.created", after.Shape());
        await paying.Tell("refund.updated", after.Shape());
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 600);
    }

    internal static async Task<(JsonElement Order, JsonElement Refund)> Refused(PayingShop paying, int amount = 300)
    {
        var order = await paying.PaidOrder();
        paying.Stripe.Fail("/v1/refunds", StripeFault.Declined);
        return (order, (await GiveBack(paying, order, amount)).GetProperty("refunds")[0]);
    }

    [Fact]
    public async Task A_refund_made_at_Stripe_itself_comes_into_the_book()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var refund = paying.Stripe.RefundByHand(PaymentOf(paying, order), 200);

        await paying.Tell("refund.created", refund.Shape());
        await paying.Tell("refund.updated", refund.Shape());
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 200);
    }

    [Fact]
    public async Task A_word_of_a_refund_may_come_before_the_word_of_its_payment()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.Order();
        paying.Stripe.Pay(PayingShop.SessionOf(order));

        await paying.Tell("refund.created", paying.Stripe.RefundByHand(PaymentOf(paying, order), 200).Shape());
        await paying.Tick();

        Assert.Equal("ready", await paying.Status(order));
        await CardFacts.Balanced(paying, order, captured: 700, refunded: 200);
    }

    [Fact]
    public async Task A_refund_that_the_bank_sent_back_is_invoiced_again()
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        await GiveBack(paying, order, 200);

        var refund = paying.Stripe.Refunds.Single();
        refund.Status = "failed";
        await paying.Tell("refund.failed", refund.Shape());
        await paying.Tick();

        var money = await paying.Money(order);
        Assert.Equal(0, PayingShop.Amount(money, "refunded"));
        Assert.Equal(200, PayingShop.Amount(money, "waiting"));
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
        Assert.Equal(900, PayingShop.Amount(money, "invoiced"));
        Assert.Equal(200, PayingShop.Amount(money, "credited"));
        Assert.True(money.GetProperty("balances").GetBoolean());
    }

    [Theory]
    [InlineData("won", 0)]
    [InlineData("lost", 700)]
    public async Task A_dispute_is_flagged_to_the_owner_once_and_a_lost_one_is_money_that_went_back(
        string end,
        long back
    )
    {
        await using var paying = await PayingShop.Open();
        var order = await paying.PaidOrder();
        var dispute = paying.Stripe.OpenDispute(PaymentOf(paying, order), 700);

        await paying.Tell("charge.dispute.created", dispute.Shape());
        await paying.Tick();
        await paying.Tell("charge.dispute.updated", dispute.Shape());
        await paying.Tick();
        Assert.Equal(["payment-trouble"], await paying.Letters("maker@example.org"));
        var flagged = (await paying.Money(order)).GetProperty("disputes")[0];
        Assert.Equal("product_not_received", flagged.GetProperty("reason").GetString());
        dispute.Status = end;
        await paying.Tell("charge.dispute.closed", dispute.Shape());
        await paying.Tell("charge.dispute.closed", dispute.Shape());
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: back);
    }

    internal static string PaymentOf(PayingShop paying, JsonElement order) =>
        paying.Stripe.Sessions[PayingShop.SessionOf(order)].PaymentId!;

    internal static string Address(JsonElement order, JsonElement refund, string what) =>
        $"/api/orders/{PayingShop.Id(order)}/refunds/{PayingShop.Id(refund)}/{what}";

    private static Task<HttpResponseMessage> Send(PayingShop paying, JsonElement order, long amount) =>
        paying.Shop.Send(
            HttpMethod.Post,
            $"/api/orders/{PayingShop.Id(order)}/refunds",
            new { amount = new { amount, currency = "EUR" } }
        );

    private static async Task<JsonElement> GiveBack(PayingShop paying, JsonElement order, long amount) =>
        await ShopHost.Read(await Send(paying, order, amount));
}

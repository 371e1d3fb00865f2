using System.Net;
using System.Text.Json;

namespace ReedShop.Tests.Payments;

public sealed class DepositFacts
{
    private static readonly object Terms = new { depositShare = 0.4, keptShare = 0.5 };

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
        await paying.Shop.Tick("ask-for-balances");
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

        Assert.True(paying.Stripe.Pay(session));
        await paying.ComeBack(order);

        await CardFacts.Balanced(paying, order, captured: 1120, refunded: 420);
        Assert.Contains("paid-too-late", await paying.Letters());
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
    private static async Task<string> AskForTheRest(PayingShop paying, JsonElement order)
    {
        using var buyer = new Visitor(paying.Shop);
        var page = $"/orders/{PayingShop.Id(order)}";
        var sent = await buyer.PostFrom(page, $"{page}/pay");
        Assert.Equal(HttpStatusCode.SeeOther, sent.StatusCode);
        return PayingShop.SessionOf(await paying.Read(order));
    }
}

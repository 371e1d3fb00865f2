namespace ReedShop.Tests.Payments;

/// <summary>Money that went back at Stripe though it had gone back another way before.</summary>
public sealed class RefundBeyondFacts
{
    [Theory]
    [InlineData(500, "4.00 EUR", 2)]
    [InlineData(700, "6.00 EUR", 1)]
    public async Task What_goes_back_beyond_what_was_paid_is_told_to_the_owner_once(
        int byHand,
        string beyond,
        int creditNotes
    )
    {
        await using var paying = await PayingShop.Open();
        var (order, refund) = await RefundFacts.Refused(paying, byHand);
        await paying.Shop.PostJson(RefundFacts.Address(order, refund, "paid-back"), new { });
        var again = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, order), 600);

        await paying.Tell("refund.created", again.Shape());
        await paying.Tick();
        await paying.Tell("refund.updated", again.Shape());
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        var letters = (await paying.Shop.GetJson("/api/messages")).EnumerateArray();
        Assert.Single(
            letters,
            letter => letter.GetProperty("title").GetString() == "Order 1: more went back than was paid"
        );
        var money = await paying.Money(order);
        Assert.Contains(
            money.GetProperty("refunds").EnumerateArray(),
            row =>
                row.TryGetProperty("fault", out var fault)
                && fault.GetString()!.StartsWith(beyond, StringComparison.Ordinal)
        );
        Assert.Equal(
            creditNotes,
            money
                .GetProperty("papers")
                .EnumerateArray()
                .Count(paper => paper.GetProperty("kind").GetString() == "creditNote")
        );
        Assert.Equal(creditNotes, (await paying.Letters()).Count(kind => kind == "refunded"));
        using var owner = await Visitor.Owner(paying.Shop);
        Assert.Contains(
            $"; {beyond} more went back than was left of the payment",
            await owner.Read($"/bench/orders/{PayingShop.Id(order)}/money"),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task What_went_back_beyond_what_was_paid_and_was_sent_back_by_the_bank_is_nobodys_claim()
    {
        await using var paying = await PayingShop.Open();
        var (order, refund) = await RefundFacts.Refused(paying, 700);
        await paying.Shop.PostJson(RefundFacts.Address(order, refund, "paid-back"), new { });
        var again = paying.Stripe.RefundByHand(RefundFacts.PaymentOf(paying, order), 600);
        await paying.Tell("refund.created", again.Shape());
        await paying.Tick();

        again.Status = "failed";
        await paying.Tell("refund.failed", again.Shape());
        await paying.Tick();

        await CardFacts.Balanced(paying, order, captured: 700, refunded: 700);
        var money = await paying.Money(order);
        Assert.Equal(2, money.GetProperty("papers").GetArrayLength());
        Assert.DoesNotContain(
            money.GetProperty("refunds").EnumerateArray(),
            row => row.GetProperty("state").GetString() == "refused"
        );
    }
}

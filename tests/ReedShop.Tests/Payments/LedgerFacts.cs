using System.Collections.Concurrent;
using CsCheck;
using ReedShop.Orders;
using ReedShop.Payments;

namespace ReedShop.Tests.Payments;

/// <summary>
/// The book of an order against a small Stripe that does what it is told, in any sequence of orders, payments, refunds,
/// cancellations and crashes. The moves are those of the program; what it saves is lost where it crashes, what Stripe did is
/// not.
/// </summary>
public sealed class LedgerFacts
{
    private const int Sequences = 2_000;
    private const int MostSteps = 40;

    private static readonly Gen<Step> AnyStep = Gen.Select(
        Gen.Enum<Act>(),
        Gen.Int[0, 99],
        Gen.Int[1, 40],
        Gen.Int[0, 3].Select(dice => dice == 0),
        (act, pick, size, crash) => new Step(act, pick, size, crash)
    );

    [Fact]
    public void Every_cent_is_accounted_for_whatever_happens()
    {
        var seen = new ConcurrentDictionary<string, int>();
        AnyStep
            .Array[1, MostSteps]
            .Sample(
                steps =>
                {
                    var shop = new SmallShop();
                    foreach (var step in steps)
                    {
                        shop.Do(step);
                        shop.CheckBooks();
                    }

                    shop.Recover();
                    shop.CheckBooks();
                    shop.CheckAgainstStripe();
                    foreach (var sight in shop.Sights())
                    {
                        seen.AddOrUpdate(sight, 1, (_, times) => times + 1);
                    }
                },
                iter: Sequences
            );

        // The sequences went everywhere, or the test would say little.
        string[] all =
        [
            .. Enum.GetNames<RefundReason>(),
            .. Enum.GetNames<RefundState>().Except([nameof(RefundState.Wanted)]),
            nameof(OrderStage.Expired),
            nameof(OrderStage.Cancelled),
            nameof(OrderStage.Accepted),
            nameof(OrderStage.Shipped),
            .. Enum.GetNames<PaymentWay>(),
            "open Invoice",
            "open CreditNote",
            "voucher",
            "no voucher",
            "shipping apart",
            "shipping in the price",
            "Cancelled after a part had left",
        ];
        Assert.All(all, sight => Assert.True(seen.GetValueOrDefault(sight) >= 10, $"{sight} was hardly seen"));
    }

    [Fact]
    public void A_book_that_does_not_balance_is_seen()
    {
        Assert.True(new Ledger(700, 200, 0, 0, 700, 200).Balances);
        Assert.False(new Ledger(700, 200, 0, 0, 700, 0).Balances);
        Assert.False(new Ledger(700, 200, 0, 600, 700, 200).Balances);
        Assert.True(new Ledger(0, 0, 0, 0, 700, 200, 500).Balances);
    }

    [Theory]
    [InlineData(0.3, true, 315)]
    [InlineData(0.3, false, 0)]
    [InlineData(0.333, true, 349)]
    [InlineData(1, true, 1050)]
    [InlineData(0, true, 0)]
    public void What_is_kept_is_rounded_down_in_the_buyers_favour(double share, bool isBegun, long kept)
    {
        var order = SmallShop.NewOrder(1, 3);
        order.BegunOn = isBegun ? order.ShipBy : null;

        Assert.Equal(kept, PayAmounts.KeptWhenCancelled(order, share, byBuyer: true));
        Assert.Equal(0, PayAmounts.KeptWhenCancelled(order, share, byBuyer: false));
        order.MovedUtc = order.AcceptedUtc;
        Assert.Equal(0, PayAmounts.KeptWhenCancelled(order, share, byBuyer: true));
    }

    [Fact]
    public void Shipping_is_kept_once_a_parcel_has_left_and_goes_back_otherwise()
    {
        var order = SmallShop.NewOrder(1, 3, shipping: 450);
        order.BegunOn = order.ShipBy;
        Assert.Equal(525, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: true));
        Assert.Equal(0, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: false));

        order.Parcels = [new SentParcel(order.ShipBy, null, [new SentReeds("clarinet", order.Lines[0].Strength, 1)])];

        Assert.Equal(350 + 450 + 350, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: true));
        Assert.Equal(350 + 450, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: false));
    }

    /// <summary>1050 less 104 and 455 for shipping are 1401; cards take KWD and MGA in coarser steps only.</summary>
    [Theory]
    [InlineData("EUR", 1401)]
    [InlineData("JPY", 1401)]
    [InlineData("KWD", 1400)]
    [InlineData("MGA", 1400)]
    public void The_lines_of_an_invoice_add_up_to_what_the_card_was_charged(string currency, long charged)
    {
        var order = SmallShop.NewOrder(1, 3, shipping: 455, off: 104, currency: currency);
        var books = new SmallShop().Books(order);

        books.Take(PaymentWay.Card, PayAmounts.Whole(order), "pi_1");

        var invoice = Assert.Single(books.Papers);
        Assert.Equal(charged, invoice.AmountMinor);
        long[] lines = [1050, -104, 455, .. charged == 1401 ? Array.Empty<long>() : [-1]];
        Assert.Equal(lines, invoice.Content.Lines.Select(line => line.AmountMinor));
    }

    [Fact]
    public void Of_what_has_left_the_discount_goes_along_and_a_share_is_kept_of_the_rest_less_its_own()
    {
        var order = SmallShop.NewOrder(1, 3, shipping: 455, off: 105);
        order.BegunOn = order.ShipBy;
        order.Parcels = [new SentParcel(order.ShipBy, null, [new SentReeds("clarinet", order.Lines[0].Strength, 1)])];

        // One reed at 350 less 35, and shipping; of the other two at 700 less 70 a half.
        Assert.Equal(315 + 455, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: false));
        Assert.Equal(315 + 455 + 315, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: true));
    }

    /// <summary>By hand: 12.30 with 23 in 100 is 10.00 and 2.30; 1.03 with 5 in 100 holds 0.0490.</summary>
    [Theory]
    [InlineData(1230, 0.23, 230)]
    [InlineData(103, 0.05, 5)]
    [InlineData(700, 0.06, 40)]
    public void The_tax_in_a_price_is_shown_as_the_shop_sets_it(long amount, double share, long tax) =>
        Assert.Equal(tax, PaperTax.Of("VAT", share, amount)!.AmountMinor);

    [Fact]
    public void Without_a_tax_none_is_shown() => Assert.Null(PaperTax.Of("VAT", 0, 700));

    [Fact]
    public void What_has_left_is_kept_whoever_cancels()
    {
        var order = SmallShop.NewOrder(1, 3);
        order.Parcels = [new SentParcel(order.ShipBy, null, [new SentReeds("clarinet", order.Lines[0].Strength, 1)])];
        order.BegunOn = order.ShipBy;

        Assert.Equal(350, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: false));
        Assert.Equal(350 + 350, PayAmounts.KeptWhenCancelled(order, 0.5, byBuyer: true));
    }
}

using ReedShop.Orders;

namespace ReedShop.Tests.Orders;

public sealed class OrderPriceFacts
{
    [Fact]
    public void Reeds_and_shipping_are_the_whole() => Assert.Equal(1150, new OrderPrice(700, 450).TotalMinor);

    [Fact]
    public void Without_zones_the_reeds_are_the_whole() => Assert.Equal(700, new OrderPrice(700).TotalMinor);

    [Fact]
    public void Shipping_belongs_to_the_first_parcel_that_has_left()
    {
        var price = new OrderPrice(1050, 450);

        Assert.Equal(350 + 450, price.OfSent(350));
        Assert.Equal(price.TotalMinor, price.OfSent(1050));
    }

    /// <summary>By hand: 15 in 100 of 3.50 are 0.525, of 10.50 they are 1.575; a third of 10.00 is 3.33 and a bit.</summary>
    [Theory]
    [InlineData(0.15, 350, 53)]
    [InlineData(0.15, 1050, 158)]
    [InlineData(0.1, 700, 70)]
    [InlineData(0.333, 1000, 333)]
    [InlineData(1, 1050, 1050)]
    [InlineData(0.001, 1, 1)]
    [InlineData(0.5, 0, 0)]
    public void A_share_off_the_reeds_is_rounded_up_in_the_buyers_favour(double share, long reeds, long off)
    {
        var price = new OrderPrice(reeds, 450).Less(new Discount(share));

        Assert.Equal(off, price.DiscountMinor);
        Assert.Equal(reeds - off + 450, price.TotalMinor);
    }

    [Theory]
    [InlineData(500, 1050, 500)]
    [InlineData(500, 350, 350)]
    public void An_amount_takes_no_more_off_than_the_reeds_cost_and_nothing_off_shipping(
        long amount,
        long reeds,
        long off
    )
    {
        var price = new OrderPrice(reeds, 450).Less(new Discount(AmountMinor: amount));

        Assert.Equal(off, price.DiscountMinor);
        Assert.Equal(reeds - off + 450, price.TotalMinor);
    }

    /// <summary>A third of 1.00 off is 0.34 of the one reed that left, and all of it once all three have.</summary>
    [Fact]
    public void Reeds_that_have_left_bring_their_part_of_the_discount()
    {
        var price = new OrderPrice(1050, 450, 100);

        Assert.Equal(350 - 34 + 450, price.OfSent(350));
        Assert.Equal(700 - 67 + 450, price.OfSent(700));
        Assert.Equal(price.TotalMinor, price.OfSent(1050));
        Assert.Equal(450, new OrderPrice(0, 450).OfSent(0));
    }
}

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

        Assert.Equal(0, price.OfSent(0));
        Assert.Equal(350 + 450, price.OfSent(350));
        Assert.Equal(price.TotalMinor, price.OfSent(1050));
    }
}

using ReedShop.Platform.Http;

namespace ReedShop.Orders;

/// <summary>What a price is made of.</summary>
/// <param name="Shipping">Missing where it is a part of the reeds' price.</param>
public sealed record PriceParts(Money Reeds, Money? Shipping, Money Total)
{
    public static PriceParts Of(OrderPrice price, string currency)
    {
        return new(
            In(price.ReedsMinor),
            price.ShippingMinor is { } shipping ? In(shipping) : null,
            In(price.TotalMinor)
        );

        Money In(long minor) => new(minor, currency);
    }
}

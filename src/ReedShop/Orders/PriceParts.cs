using ReedShop.Platform.Http;

namespace ReedShop.Orders;

/// <summary>What a price is made of: reeds less discount and shipping are the total.</summary>
/// <param name="Shipping">Missing where it is a part of the reeds' price.</param>
/// <param name="Discount">What the voucher took off the reeds; missing without one.</param>
/// <param name="Voucher">Its code.</param>
public sealed record PriceParts(
    Money Reeds,
    Money? Shipping,
    Money Total,
    Money? Discount = null,
    string? Voucher = null
)
{
    public static PriceParts Of(OrderPrice price, string? voucher, string currency)
    {
        return new(
            In(price.ReedsMinor),
            price.ShippingMinor is { } shipping ? In(shipping) : null,
            In(price.TotalMinor),
            voucher is null ? null : In(price.DiscountMinor),
            voucher
        );

        Money In(long minor) => new(minor, currency);
    }
}

namespace ReedShop.Orders;

/// <summary>What a voucher takes off the reeds: a share of their price, or an amount. Never more than they cost.</summary>
/// <param name="Share">0 to 1.</param>
public sealed record Discount(double? Share = null, long AmountMinor = 0)
{
    /// <summary>A share is rounded up to the minor unit, in the buyer's favour.</summary>
    public long Of(long reedsMinor) =>
        Math.Min(reedsMinor, Share is { } share ? OrderPrice.Up(reedsMinor * (decimal)share) : AmountMinor);
}

/// <summary>
/// What an order costs and what of it is what: the one owner of this calculation. Every amount is in the minor unit of the
/// order's currency.
/// </summary>
/// <param name="ReedsMinor">The reeds at the prices of their models.</param>
/// <param name="ShippingMinor">Null where shipping is a part of the reeds' price.</param>
/// <param name="DiscountMinor">What a voucher takes off the reeds, never off shipping.</param>
public sealed record OrderPrice(long ReedsMinor, long? ShippingMinor = null, long DiscountMinor = 0)
{
    public long TotalMinor => ReedsMinor - DiscountMinor + (ShippingMinor ?? 0);

    public OrderPrice Less(Discount discount) => this with { DiscountMinor = discount.Of(ReedsMinor) };

    /// <summary>
    /// What of the price belongs to reeds that have left: their share of the discount is taken off, rounded in the buyer's
    /// favour, and shipping is added, since the first parcel of an order uses it up.
    /// </summary>
    /// <param name="reedsMinor">The reeds that have left, at the prices of their models.</param>
    public long OfSent(long reedsMinor) =>
        reedsMinor
        - (ReedsMinor == 0 ? 0 : Up((decimal)DiscountMinor * reedsMinor / ReedsMinor))
        + (ShippingMinor ?? 0);

    internal static long Up(decimal minor) => (long)Math.Ceiling(minor);
}

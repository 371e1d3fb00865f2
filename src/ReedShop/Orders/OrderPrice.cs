namespace ReedShop.Orders;

/// <summary>
/// What an order costs and what of it is what: the one owner of this calculation. Every amount is in the minor unit of the
/// order's currency.
/// </summary>
/// <param name="ReedsMinor">The reeds at the prices of their models.</param>
/// <param name="ShippingMinor">Null where shipping is a part of the reeds' price.</param>
public sealed record OrderPrice(long ReedsMinor, long? ShippingMinor = null)
{
    public long TotalMinor => ReedsMinor + (ShippingMinor ?? 0);

    /// <summary>
    /// What of the price belongs to reeds that have left: with the first parcel its shipping too, since the parcels of an
    /// order pay for it once.
    /// </summary>
    /// <param name="reedsMinor">The reeds that have left, at the prices of their models.</param>
    public long OfSent(long reedsMinor) => reedsMinor > 0 ? reedsMinor + (ShippingMinor ?? 0) : 0;
}

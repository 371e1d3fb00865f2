using ReedShop.Orders;

namespace ReedShop.Payments;

/// <summary>
/// What is to be paid, and what is kept. A share is rounded down to the minor unit, in the buyer's favour, and where a
/// currency is charged in coarser steps to the nearest of them.
/// </summary>
public static class PayAmounts
{
    /// <summary>The price; by card rounded to what can be charged, where the currency is coarser there than the price.</summary>
    public static long Whole(Order order) =>
        order.PaysBeforeShipping ? Payable(order.Currency, order.PriceMinor) : order.PriceMinor;

    /// <summary>What is paid with the order: the whole where the deposit or the rest would be too small for a card.</summary>
    /// <param name="share">Of the price, 0 to 1.</param>
    public static long Deposit(Order order, double share)
    {
        var whole = Whole(order);
        var deposit = Payable(order.Currency, Down(whole, share));
        var least = CardMoney.Of(order.Currency)?.Least ?? 0;
        return deposit < least || whole - deposit < least ? whole : deposit;
    }

    /// <summary>
    /// What the shop keeps of a cancelled order: what has left, and after the first sitting a share of the reeds that have
    /// not. Nothing of these if the shop itself cancels or has moved the date. Shipping is kept once a parcel has left, and
    /// goes back otherwise.
    /// </summary>
    public static long KeptWhenCancelled(Order order, double share, bool byBuyer)
    {
        var left = LeftAlready(order);
        var isFree = !byBuyer || order.BegunOn is null || order.MovedUtc is not null;
        var shipping = order.Parcels.Count == 0 ? order.ShippingMinor ?? 0 : 0;
        return isFree ? left : left + Payable(order.Currency, Down(Math.Max(0, Whole(order) - left - shipping), share));
    }

    /// <summary>The price of the reeds that have left in parcels, with their shipping, less their part of the discount.</summary>
    public static long LeftAlready(Order order)
    {
        var sent = order.Parcels.SelectMany(parcel => parcel.Reeds).ToArray();
        if (sent.Length == 0)
        {
            return 0;
        }

        var ordered = order.Lines.Sum(line => line.Quantity);
        var count = Math.Min(ordered, sent.Sum(reeds => reeds.Quantity));
        return count == ordered
            ? Whole(order)
            : Math.Min(Whole(order), Payable(order.Currency, order.Price.OfSent(PriceOf(order, sent))));
    }

    /// <summary>A neighbour strength that was sent counts at the price of its model: strengths of a model cost the same.</summary>
    private static long PriceOf(Order order, IEnumerable<SentReeds> sent) =>
        sent.GroupBy(reeds => reeds.Model)
            .Sum(reeds =>
                reeds.Sum(r => r.Quantity)
                * order
                    .Lines.Where(line => line.Model == reeds.Key)
                    .Select(line => line.UnitPriceMinor)
                    .FirstOrDefault()
            );

    private static long Payable(string currency, long minor) => CardMoney.Of(currency)?.Payable(minor) ?? minor;

    private static long Down(long minor, double share) => (long)Math.Floor(minor * (decimal)Math.Clamp(share, 0, 1));
}

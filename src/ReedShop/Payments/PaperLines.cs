using ReedShop.Orders;
using ReedShop.Platform.Http;

namespace ReedShop.Payments;

/// <summary>What stands on a paper, line by line; the lines add up to its amount.</summary>
internal static class PaperLines
{
    /// <summary>The reeds where all is paid at once; else one line that says which part it is.</summary>
    public static IReadOnlyList<PaperLine> Invoice(Order order, long amountMinor) =>
        amountMinor == PayAmounts.Whole(order)
            ?
            [
                .. order.Lines.OrderBy(line => line.Position).Select(Reeds),
                .. Voucher(order),
                .. Shipping(order),
                .. Rounding(order),
            ]
            :
            [
                new PaperLine(
                    $"Part payment for order {order.Number}, {new Money(order.PriceMinor, order.Currency)} in all",
                    1,
                    amountMinor
                ),
            ];

    public static IReadOnlyList<PaperLine> CreditNote(Order order, Refund refund) =>
        [new PaperLine($"{Why(refund.Reason)}, order {order.Number}", 1, refund.AmountMinor)];

    public static IReadOnlyList<PaperLine> LetGo(Order order, long amountMinor) =>
        [new PaperLine($"Not to be paid any more: order {order.Number} was cancelled", 1, amountMinor)];

    public static IReadOnlyList<PaperLine> CameBack(Order order, Refund refund) =>
        [new PaperLine($"A refund for order {order.Number} that the bank sent back", 1, refund.AmountMinor)];

    public static string Why(RefundReason reason) =>
        reason switch
        {
            RefundReason.Cancelled => "Order cancelled",
            RefundReason.PaidTooLate => "Paid after the order had ended",
            RefundReason.PaidTwice => "Paid twice",
            RefundReason.Goodwill => "Goodwill after shipping",
            RefundReason.DisputeLost => "Taken back by the bank",
            _ => "Refund",
        };

    private static PaperLine Reeds(OrderLine line) =>
        new($"Reed {line.Strength} ({line.Model})", line.Quantity, line.Quantity * line.UnitPriceMinor);

    private static IEnumerable<PaperLine> Voucher(Order order) =>
        order.Voucher is { } code ? [new PaperLine($"Voucher {code}", 1, -order.DiscountMinor)] : [];

    private static IEnumerable<PaperLine> Shipping(Order order) =>
        order.ShippingMinor is { } shipping ? [new PaperLine("Shipping", 1, shipping)] : [];

    private static IEnumerable<PaperLine> Rounding(Order order) =>
        PayAmounts.Whole(order) - order.PriceMinor is not 0 and var difference
            ? [new PaperLine("Rounded to what a card can be charged", 1, difference)]
            : [];
}

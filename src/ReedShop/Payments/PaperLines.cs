using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using static ReedShop.Payments.PaymentTexts;

namespace ReedShop.Payments;

/// <summary>
/// What stands on a paper, line by line, in the language it is asked in; the lines add up to its amount.
/// </summary>
internal static class PaperLines
{
    /// <summary>The reeds where all is paid at once; else one line that says which part it is.</summary>
    /// <param name="models">Of the catalogue, for the names of what was bought.</param>
    public static IReadOnlyList<PaperLine> Invoice(
        Order order,
        long amountMinor,
        IReadOnlyDictionary<string, ReedModel> models
    ) =>
        amountMinor == PayAmounts.Whole(order)
            ?
            [
                .. order.Lines.OrderBy(line => line.Position).Select(line => Reeds(line, models)),
                .. Voucher(order),
                .. Shipping(order),
                .. Rounding(order),
            ]
            :
            [
                new PaperLine(
                    Say["Line.Part", order.Number, Words.Money(new Money(order.PriceMinor, order.Currency))],
                    1,
                    amountMinor
                ),
            ];

    public static IReadOnlyList<PaperLine> CreditNote(Order order, Refund refund) =>
        [new PaperLine(Say["Line.CreditNote", Why(refund.Reason), order.Number], 1, refund.AmountMinor)];

    public static IReadOnlyList<PaperLine> LetGo(Order order, long amountMinor) =>
        [new PaperLine(Say["Line.LetGo", order.Number], 1, amountMinor)];

    public static IReadOnlyList<PaperLine> CameBack(Order order, Refund refund) =>
        [new PaperLine(Say["Line.CameBack", order.Number], 1, refund.AmountMinor)];

    public static string Why(RefundReason reason) =>
        reason
            is RefundReason.Cancelled
                or RefundReason.PaidTooLate
                or RefundReason.PaidTwice
                or RefundReason.Goodwill
                or RefundReason.DisputeLost
            ? Say[$"Why.{reason}"]
            : Say["Why.Refund"];

    private static PaperLine Reeds(OrderLine line, IReadOnlyDictionary<string, ReedModel> models) =>
        new(
            Say["Line.Reeds", line.Strength, ReadyNames.Of(models, line.Model)],
            line.Quantity,
            line.Quantity * line.UnitPriceMinor
        );

    private static IEnumerable<PaperLine> Voucher(Order order) =>
        order.Voucher is { } code ? [new PaperLine(Say["Line.Voucher", code], 1, -order.DiscountMinor)] : [];

    private static IEnumerable<PaperLine> Shipping(Order order) =>
        order.ShippingMinor is { } shipping ? [new PaperLine(Say["Line.Shipping"], 1, shipping)] : [];

    private static IEnumerable<PaperLine> Rounding(Order order) =>
        PayAmounts.Whole(order) - order.PriceMinor is not 0 and var difference
            ? [new PaperLine(Say["Line.Rounded"], 1, difference)]
            : [];
}

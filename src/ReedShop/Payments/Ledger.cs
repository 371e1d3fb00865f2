namespace ReedShop.Payments;

/// <summary>
/// The sums of one order's money: the one owner of this arithmetic. Every amount is in the shop's minor unit.
/// </summary>
/// <param name="Captured">What came in.</param>
/// <param name="Refunded">What went back, goodwill and lost disputes too.</param>
/// <param name="Goodwill">The part of it that was given back after shipping.</param>
/// <param name="Wanted">What is to go back and has not yet.</param>
/// <param name="Invoiced">The sum of its invoices.</param>
/// <param name="Credited">The sum of its credit notes.</param>
/// <param name="Owed">What was invoiced before it was paid, and is not paid yet.</param>
/// <param name="Lost">What came in and pays for nothing, since it goes back, or went, without the price being lowered.</param>
public sealed record Ledger(
    long Captured,
    long Refunded,
    long Goodwill,
    long Wanted,
    long Invoiced,
    long Credited,
    long Owed = 0,
    long Lost = 0
)
{
    /// <summary>What the shop has of the buyer's money.</summary>
    public long Kept => Captured - Refunded;

    /// <summary>
    /// What has been paid of the price. What the owner gave back lowers the price by as much, so the buyer is not asked for it
    /// again; a payment taken twice, too late or lost to the bank never paid for anything.
    /// </summary>
    public long Paid => Captured - Lost;

    /// <summary>What can still be given back.</summary>
    public long Refundable => Kept - Wanted;

    /// <summary>
    /// captured - refunded = invoiced - credited, but for what is still owed on an invoice sent in advance; and nothing is
    /// given back that never came.
    /// </summary>
    public bool Balances => Captured - Refunded == Invoiced - Credited - Owed && Refundable >= 0 && Owed >= 0;

    public static Ledger Of(
        IReadOnlyCollection<Payment> payments,
        IReadOnlyCollection<Refund> refunds,
        IReadOnlyCollection<Paper> papers
    ) =>
        new(
            payments.Sum(payment => payment.AmountMinor),
            Sum(refunds, RefundState.Done),
            refunds
                .Where(refund => refund is { State: RefundState.Done, Reason: RefundReason.Goodwill })
                .Sum(refund => refund.AmountMinor),
            Sum(refunds, RefundState.Wanted) + Sum(refunds, RefundState.Refused),
            Sum(papers, PaperKind.Invoice),
            Sum(papers, PaperKind.CreditNote),
            Sum(papers.Where(paper => paper.PaymentId is null), PaperKind.Invoice)
                - Sum(papers.Where(paper => paper.PaymentId is null), PaperKind.CreditNote),
            refunds
                .Where(refund =>
                    refund is { IsDiscount: false, State: not (RefundState.Returned or RefundState.Dropped) }
                )
                .Sum(refund => refund.AmountMinor)
        );

    private static long Sum(IEnumerable<Paper> papers, PaperKind kind) =>
        papers.Where(paper => paper.Kind == kind).Sum(paper => paper.AmountMinor);

    private static long Sum(IEnumerable<Refund> refunds, RefundState state) =>
        refunds.Where(refund => refund.State == state).Sum(refund => refund.AmountMinor);
}

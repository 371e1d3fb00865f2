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
public sealed record Ledger(long Captured, long Refunded, long Goodwill, long Wanted, long Invoiced, long Credited)
{
    /// <summary>What the shop has of the buyer's money.</summary>
    public long Kept => Captured - Refunded;

    /// <summary>What can still be given back.</summary>
    public long Refundable => Kept - Wanted;

    /// <summary>captured - refunded = invoiced - credited, and nothing is given back that never came.</summary>
    public bool Balances => Captured - Refunded == Invoiced - Credited && Refundable >= 0;

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
            papers.Where(paper => paper.Kind == PaperKind.Invoice).Sum(paper => paper.AmountMinor),
            papers.Where(paper => paper.Kind == PaperKind.CreditNote).Sum(paper => paper.AmountMinor)
        );

    private static long Sum(IEnumerable<Refund> refunds, RefundState state) =>
        refunds.Where(refund => refund.State == state).Sum(refund => refund.AmountMinor);
}

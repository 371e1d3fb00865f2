using ReedShop.Platform.Http;

namespace ReedShop.Payments;

/// <summary>The money of one order, as the owner sees it.</summary>
/// <param name="Goodwill">The part of <paramref name="Refunded"/> that was given back after shipping.</param>
/// <param name="Waiting">What is to go back and has not yet.</param>
/// <param name="Owed">What was invoiced before it was paid, and is not paid yet.</param>
/// <param name="Refundable">What can still be given back.</param>
public sealed record MoneyView(
    int Order,
    Money Captured,
    Money Refunded,
    Money Goodwill,
    Money Waiting,
    Money Invoiced,
    Money Credited,
    Money Owed,
    Money Refundable,
    bool Balances,
    IReadOnlyList<PaymentView> Payments,
    IReadOnlyList<RefundView> Refunds,
    IReadOnlyList<PaperView> Papers,
    IReadOnlyList<DisputeView> Disputes
)
{
    public static MoneyView Of(OrderBooks books)
    {
        var (order, sums) = (books.Order, books.Ledger);
        return new MoneyView(
            order.Number,
            In(sums.Captured),
            In(sums.Refunded),
            In(sums.Goodwill),
            In(sums.Wanted),
            In(sums.Invoiced),
            In(sums.Credited),
            In(sums.Owed),
            In(sums.Refundable),
            sums.Balances,
            [
                .. books
                    .Payments.OrderBy(row => row.AtUtc)
                    .Select(row => new PaymentView(row.Way, In(row.AmountMinor), row.AtUtc)),
            ],
            [.. books.Refunds.OrderBy(row => row.AskedUtc).Select(row => RefundView.Of(row, order.Currency))],
            [
                .. books
                    .Papers.OrderBy(row => row.IssuedOn)
                    .ThenBy(row => row.Number)
                    .Select(row => PaperView.Of(row, sums.Owed)),
            ],
            [.. books.Disputes.Select(row => DisputeView.Of(row, order.Currency))]
        );

        Money In(long minor) => new(minor, order.Currency);
    }
}

public sealed record PaymentView(PaymentWay Way, Money Amount, DateTime At);

/// <param name="Fault">
/// Why it has not been done, or what went back beyond it; missing where nothing stands in its way.
/// </param>
public sealed record RefundView(
    string Id,
    Money Amount,
    RefundReason Reason,
    RefundState State,
    DateTime AskedAt,
    DateTime? DoneAt = null,
    string? Note = null,
    string? Fault = null
)
{
    public static RefundView Of(Refund row, string currency) =>
        new(
            row.Id,
            new Money(row.AmountMinor, currency),
            row.Reason,
            row.State,
            row.AskedUtc,
            row.DoneUtc,
            row.Note,
            row.LastError
        );
}

/// <summary>A numbered invoice or credit note.</summary>
/// <param name="Url">Its page, for whoever has the link of the order.</param>
/// <param name="IsOpen">Written before it was paid, and not paid yet.</param>
public sealed record PaperView(
    PaperKind Kind,
    int Number,
    Money Amount,
    DateOnly IssuedOn,
    string Url,
    bool IsGoodwill = false,
    bool IsOpen = false
)
{
    /// <param name="owed">What of its order is invoiced and not paid.</param>
    public static PaperView Of(Paper row, long owed) =>
        new(
            row.Kind,
            row.Number,
            new Money(row.AmountMinor, row.Currency),
            row.IssuedOn,
            Address(row),
            row.IsGoodwill,
            row.IsOpen(owed)
        );

    public static string Address(Paper row) => $"/orders/{row.OrderId}/{NameOf(row.Kind)}/{row.Number}";

    /// <summary>The same paper as a file.</summary>
    public static string PdfOf(string address) => $"{address}.pdf";

    /// <summary>"credit-note", in addresses and names of files.</summary>
    public static string NameOf(PaperKind kind) => kind == PaperKind.Invoice ? "invoice" : "credit-note";
}

public sealed record DisputeView(string Id, Money Amount, string Reason, string Status, DateTime OpenedAt)
{
    public static DisputeView Of(Dispute row, string currency) =>
        new(row.Id, new Money(row.AmountMinor, currency), row.Reason, row.Status, row.OpenedUtc);
}

using static ReedShop.Payments.PaymentTexts;

namespace ReedShop.Payments;

public enum PaperKind
{
    Invoice,
    CreditNote,
}

/// <summary>
/// What a paper says, as it was on the day it was made: neither a later change of address nor a better translation changes
/// an invoice.
/// </summary>
/// <param name="Language">That of the order: its lines are in it, and its days and figures are said in it.</param>
public sealed record PaperContent(
    string Language,
    PaperWords Words,
    string ShopName,
    string ShopEmail,
    string BuyerName,
    IReadOnlyList<string> BuyerAddress,
    IReadOnlyList<PaperLine> Lines,
    string? Note = null,
    PaperTax? Tax = null
);

/// <summary>The words around the figures of a paper.</summary>
/// <param name="Title">With a place for the number.</param>
/// <param name="OfWhichTax">With places for the name of the tax, its share of a hundred and its amount.</param>
public sealed record PaperWords(
    string Title,
    string IssuedOn,
    string ForOrder,
    string ToInvoice,
    string What,
    string HowMany,
    string Amount,
    string Total,
    string OfWhichTax
)
{
    /// <summary>In the language it is asked in.</summary>
    public static PaperWords Of(PaperKind kind) =>
        new(
            Say[$"Paper.{kind}"],
            Say["IssuedOn"],
            Say["ForOrder"],
            Say["ToInvoice"],
            Say["What"],
            Say["HowMany"],
            Say["Amount"],
            Say["Total"],
            Say["OfWhichTax"]
        );
}

/// <summary>The tax that an amount contains, as the shop has set it.</summary>
/// <param name="Share">Of the amount without the tax.</param>
public sealed record PaperTax(string Name, double Share, long AmountMinor)
{
    /// <summary>
    /// Rounded to the minor unit, halves up, for each paper by itself: over several papers it may differ from the tax of
    /// their sum by as many halves.
    /// </summary>
    public static PaperTax? Of(string? name, double share, long amountMinor) =>
        share > 0
            ? new PaperTax(
                name ?? "",
                share,
                (long)Math.Round(amountMinor * (decimal)share / (1 + (decimal)share), MidpointRounding.AwayFromZero)
            )
            : null;
}

/// <param name="AmountMinor">Of the whole line.</param>
public sealed record PaperLine(string Text, int Quantity, long AmountMinor);

/// <summary>A numbered invoice or credit note. Written once; what it says is never changed, and the numbers of each kind have no gap.</summary>
public sealed class Paper
{
    public required string Id { get; init; }

    public required PaperKind Kind { get; init; }

    /// <summary>From 1, one after another for each kind.</summary>
    public required int Number { get; init; }

    public required string OrderId { get; init; }

    public required int OrderNumber { get; init; }

    public required long AmountMinor { get; init; }

    public required string Currency { get; init; }

    public required DateOnly IssuedOn { get; init; }

    /// <summary>The payment it belongs to; missing while an invoice sent before it is paid is open.</summary>
    public required string? PaymentId { get; set; }

    public string? RefundId { get; init; }

    public bool IsGoodwill { get; init; }

    public required PaperContent Content { get; init; }

    /// <summary>An invoice that is still to be paid. One that a credit note took off is neither paid nor to be paid.</summary>
    /// <param name="owed">What of its order is invoiced and not paid.</param>
    public bool IsOpen(long owed) => Kind == PaperKind.Invoice && PaymentId is null && owed > 0;
}

/// <summary>The last number given to each kind of paper.</summary>
public sealed class PaperNumber
{
    public required PaperKind Kind { get; init; }

    public int Last { get; set; }
}

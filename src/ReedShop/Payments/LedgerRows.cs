namespace ReedShop.Payments;

public enum PaymentWay
{
    Card,

    /// <summary>Cash or a bank transfer, marked by the owner.</summary>
    ByHand,
}

/// <summary>Money that came in.</summary>
public sealed class Payment
{
    public required string Id { get; init; }

    public required string OrderId { get; init; }

    public required PaymentWay Way { get; init; }

    public required long AmountMinor { get; init; }

    public required string Currency { get; init; }

    /// <summary>Stripe's name of the payment; unique, so that none is written down twice.</summary>
    public string? StripeId { get; init; }

    public required DateTime AtUtc { get; init; }
}

public enum RefundReason
{
    Cancelled,

    /// <summary>It came after the order had expired or been cancelled, and no evening was left to keep the date.</summary>
    PaidTooLate,

    /// <summary>The order had been paid before.</summary>
    PaidTwice,

    /// <summary>The owner gives something back before the order has left.</summary>
    Owner,

    /// <summary>The owner gives something back for an order that has been shipped.</summary>
    Goodwill,

    /// <summary>The buyer's bank took it back.</summary>
    DisputeLost,

    /// <summary>Made at Stripe itself, without the shop.</summary>
    MadeAtStripe,
}

public enum RefundState
{
    /// <summary>To be carried to Stripe, or to be paid back by hand. It does not count as refunded yet.</summary>
    Wanted,

    Done,

    /// <summary>Stripe will not do it: the owner must look.</summary>
    Refused,

    /// <summary>It was done, and the buyer's bank sent it back.</summary>
    Returned,

    /// <summary>The money went back another way meanwhile.</summary>
    Dropped,
}

/// <summary>Money that goes back.</summary>
public sealed class Refund
{
    /// <summary>Goes to Stripe as idempotency key and in the refund's metadata, so that a repeat is recognised.</summary>
    public required string Id { get; init; }

    public required string OrderId { get; init; }

    public required string PaymentId { get; init; }

    public required long AmountMinor { get; init; }

    public required RefundReason Reason { get; init; }

    public string? Note { get; init; }

    public RefundState State { get; set; }

    public string? StripeId { get; set; }

    public required DateTime AskedUtc { get; init; }

    public DateTime? DoneUtc { get; set; }

    public int Attempts { get; set; }

    public DateTime NextTryUtc { get; set; }

    public string? LastError { get; set; }
}

public enum PaperKind
{
    Invoice,
    CreditNote,
}

/// <summary>What a paper says, as it was on the day it was made: a later change of address changes no invoice.</summary>
public sealed record PaperContent(
    string ShopName,
    string ShopEmail,
    string BuyerName,
    IReadOnlyList<string> BuyerAddress,
    IReadOnlyList<PaperLine> Lines,
    string? Note = null
);

/// <param name="AmountMinor">Of the whole line.</param>
public sealed record PaperLine(string Text, int Quantity, long AmountMinor);

/// <summary>A numbered invoice or credit note. Written once, never changed; the numbers of each kind have no gap.</summary>
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

    /// <summary>The payment it belongs to; a credit note belongs to a refund of it.</summary>
    public required string PaymentId { get; init; }

    public string? RefundId { get; init; }

    public bool IsGoodwill { get; init; }

    public required PaperContent Content { get; init; }
}

/// <summary>The last number given to each kind of paper.</summary>
public sealed class PaperNumber
{
    public required PaperKind Kind { get; init; }

    public int Last { get; set; }
}

/// <summary>A buyer's bank asks for the money back.</summary>
public sealed class Dispute
{
    /// <summary>Stripe's name of it.</summary>
    public required string Id { get; init; }

    public required string OrderId { get; init; }

    public required string PaymentId { get; init; }

    public required long AmountMinor { get; init; }

    public required string Reason { get; set; }

    /// <summary>As Stripe says it: needs_response, under_review, won, lost and others.</summary>
    public required string Status { get; set; }

    public required DateTime OpenedUtc { get; init; }

    public bool IsOpen => Status is not ("won" or "lost" or "warning_closed");
}

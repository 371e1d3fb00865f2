namespace ReedShop.Payments;

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

    /// <summary>Given by the owner, here or at Stripe: it lowers what is to be paid.</summary>
    public bool IsDiscount => Reason is RefundReason.Owner or RefundReason.Goodwill or RefundReason.MadeAtStripe;

    public string? Note { get; init; }

    public RefundState State { get; set; }

    public string? StripeId { get; set; }

    public required DateTime AskedUtc { get; init; }

    public DateTime? DoneUtc { get; set; }

    /// <summary>
    /// Which attempt at it; each has a key of its own. One that Stripe answered is over, one that it did not answer is
    /// repeated. 0 until Stripe is asked.
    /// </summary>
    public int Attempts { get; set; }

    public DateTime NextTryUtc { get; set; }

    public string? LastError { get; set; }
}

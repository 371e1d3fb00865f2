namespace ReedShop.Payments;

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

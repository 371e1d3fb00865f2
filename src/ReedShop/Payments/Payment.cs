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

namespace ReedShop.Payments;

/// <summary>What Stripe answered.</summary>
/// <param name="Fault">Null if it was done.</param>
/// <param name="IsFinal">Asking the same again would be answered the same; otherwise nobody knows whether it was done.</param>
/// <param name="IsKeySpent">Stripe keeps this answer for a day: under the same key it would be given again.</param>
public sealed record Asked<T>(T? Value, string? Fault = null, bool IsFinal = false, bool IsKeySpent = false);

public enum StripeSessionState
{
    Open,
    Paid,
    Expired,
}

/// <summary>A session as Stripe tells of it.</summary>
/// <param name="Ours">The id of our own row.</param>
/// <param name="AmountSent">In Stripe's unit.</param>
public sealed record StripeSession(
    string Id,
    string? Ours,
    StripeSessionState State,
    string? Url,
    string? PaymentId,
    long AmountSent,
    string Currency
);

/// <param name="Ours">The id of our own row; null for one made elsewhere.</param>
/// <param name="HasFailed">The bank sent it back, or it was called off.</param>
public sealed record StripeRefund(string Id, string? Ours, long AmountSent, bool HasFailed);

public sealed record StripeDispute(string Id, string? PaymentId, long AmountSent, string Reason, string Status);

/// <summary>Something Stripe told, or would have told by webhook.</summary>
/// <param name="About">Stripe's name of what is to be asked about; empty if that is nothing of the shop's.</param>
public sealed record StripeWord(string Id, string Kind, string About);

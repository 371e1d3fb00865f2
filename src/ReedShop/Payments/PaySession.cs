namespace ReedShop.Payments;

public enum PayPart
{
    Whole,
    Deposit,
    Balance,
}

public enum PaySessionState
{
    /// <summary>To be opened at Stripe: nobody can pay it yet.</summary>
    Wanted,

    /// <summary>Stripe will not open it: its order ends with the next tick.</summary>
    Refused,

    /// <summary>Open at Stripe: it can be paid.</summary>
    Open,

    Paid,

    /// <summary>Stripe says it has expired, or it never came to be: it can not be paid any more.</summary>
    Expired,
}

/// <summary>One time that a buyer was asked to pay, at Stripe's page.</summary>
public sealed class PaySession
{
    /// <summary>Stripe tells it back as client_reference_id.</summary>
    public required string Id { get; init; }

    public required string OrderId { get; init; }

    public required PayPart Part { get; init; }

    public required long AmountMinor { get; init; }

    public required string Currency { get; init; }

    public required DateTime MadeUtc { get; init; }

    /// <summary>When Stripe will let it expire. Whether it has, only Stripe knows.</summary>
    public DateTime ExpiresUtc { get; set; }

    /// <summary>Which attempt at opening it; each has a key and an end of its own.</summary>
    public int Attempt { get; set; } = 1;

    public PaySessionState State { get; set; }

    public string? StripeId { get; set; }

    public string? Url { get; set; }

    /// <summary>When Stripe is to be asked about it next, should no webhook come.</summary>
    public DateTime AskNextUtc { get; set; }

    public string? LastError { get; set; }

    public bool IsOver => State is PaySessionState.Paid or PaySessionState.Expired;
}

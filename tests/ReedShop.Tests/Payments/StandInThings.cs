namespace ReedShop.Tests.Payments;

public sealed class StandInSession(string id, string ours, long amount, string currency, long expiresAt, string url)
{
    public string Id => id;

    public long Amount { get; set; } = amount;

    public long ExpiresAt => expiresAt;

    public string Url => url;

    public string Status { get; set; } = "open";

    public string? PaymentId { get; set; }

    public object Shape() =>
        new
        {
            id,
            @object = "checkout.session",
            amount_subtotal = Amount,
            amount_total = Amount,
            client_reference_id = ours,
            currency,
            expires_at = expiresAt,
            livemode = false,
            mode = "payment",
            payment_intent = PaymentId,
            payment_method_types = new[] { "card" },
            payment_status = PaymentId is null ? "unpaid" : "paid",
            status = Status,
            url = Status == "open" ? url : null,
        };
}

public sealed class StandInRefund(string id, string payment, long amount, string? ours)
{
    public string Id => id;

    public string PaymentId => payment;

    public long Amount => amount;

    public string Status { get; set; } = "succeeded";

    public object Shape() =>
        new
        {
            id,
            @object = "refund",
            amount,
            charge = $"ch_{payment}",
            currency = "eur",
            metadata = ours is null ? [] : new Dictionary<string, string> { ["reedshop_refund"] = ours },
            payment_intent = payment,
            status = Status,
        };
}

public sealed class StandInDispute(string id, string payment, long amount)
{
    public string Id => id;

    public string PaymentId => payment;

    public string Status { get; set; } = "needs_response";

    public object Shape() =>
        new
        {
            id,
            @object = "dispute",
            amount,
            charge = $"ch_{payment}",
            currency = "eur",
            payment_intent = payment,
            reason = "product_not_received",
            status = Status,
        };
}

/// <summary>A word of its own, in the shape of a webhook.</summary>
public sealed record StandInWord(string Id, string Kind, object Thing, long Created)
{
    public object Shape() =>
        new
        {
            id = Id,
            @object = "event",
            api_version = "2026-10-28.endive",
            created = Created,
            type = Kind,
            data = new { @object = Thing },
        };
}

namespace ReedShop.Platform;

/// <summary>
/// Something to be sent to a person, written in the transaction that caused it. Kind and subject are unique together,
/// so that the same thing is never told twice.
/// </summary>
public sealed class OutboxMessage
{
    public long Id { get; init; }

    /// <summary>Such as "day-list" or "order-confirmed".</summary>
    public required string Kind { get; init; }

    /// <summary>Such as a local date or an order number.</summary>
    public required string Subject { get; init; }

    public required string To { get; init; }

    public required string Title { get; init; }

    public required string Text { get; init; }

    /// <summary>The language it is written in, such as "de-DE".</summary>
    public required string Language { get; init; }

    /// <summary>Its reader asked for it at its hour, or for an answer at once: it goes out at night too.</summary>
    public bool Asked { get; init; }

    /// <summary>Where letters of its kind are stopped; none on what must be told, such as anything about an order.</summary>
    public string? StopLink { get; init; }

    public required DateTime CreatedUtc { get; init; }

    public DateTime? SentUtc { get; set; }

    public int Attempts { get; set; }

    public DateTime NextTryUtc { get; set; }

    public string? LastError { get; set; }

    /// <summary>The same for every attempt, so that a repeat is recognised by whoever receives it.</summary>
    public required string MessageId { get; init; }
}

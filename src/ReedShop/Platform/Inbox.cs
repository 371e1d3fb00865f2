namespace ReedShop.Platform;

/// <summary>
/// Something that another program told the shop. It is stored at once and worked later; source and event are unique
/// together, so that the same word is never taken twice. Only names are kept: what they stand for is asked for.
/// </summary>
public sealed class InboxMessage
{
    public long Id { get; init; }

    /// <summary>Such as "stripe".</summary>
    public required string Source { get; init; }

    /// <summary>The sender's name of this word.</summary>
    public required string EventId { get; init; }

    /// <summary>Such as "checkout.session.completed".</summary>
    public required string Kind { get; init; }

    /// <summary>What it is about, by the sender's name of it.</summary>
    public required string About { get; init; }

    public required DateTime ArrivedUtc { get; init; }

    public DateTime? WorkedUtc { get; set; }

    public int Attempts { get; set; }

    public DateTime NextTryUtc { get; set; }

    public string? LastError { get; set; }
}

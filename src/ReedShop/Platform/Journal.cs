namespace ReedShop.Platform;

/// <summary>Who changed what and when: append-only.</summary>
public sealed class JournalEntry
{
    public long Id { get; init; }

    public required DateTime AtUtc { get; init; }

    /// <summary>owner, buyer or shop (a job).</summary>
    public required string Who { get; init; }

    /// <summary>What it is about, such as "order 12" or "batch 4a": numbers, never link ids.</summary>
    public required string Subject { get; init; }

    public required string Text { get; init; }
}

namespace ReedShop.Platform.Idempotency;

/// <summary>
/// The answer a keyed request got. It is saved with the change itself, holding the result; status, headers and body
/// as sent are filled in right after, so that even a crash in between leaves something to answer a repeat with.
/// </summary>
public sealed class StoredAnswer
{
    public long Id { get; init; }

    public required string Caller { get; init; }

    public required string Path { get; init; }

    public required string Key { get; init; }

    public required string BodyHash { get; init; }

    public required DateTime StoredUtc { get; init; }

    public int Status { get; set; } = StatusCodes.Status200OK;

    public string? Location { get; set; }

    public string? ETag { get; set; }

    public required string Body { get; set; }
}

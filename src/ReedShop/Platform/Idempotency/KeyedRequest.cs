namespace ReedShop.Platform.Idempotency;

/// <summary>A POST whose sender gave it a key, so that it can be repeated without being done twice.</summary>
/// <param name="BodyHash">SHA-256 of the body, to tell a repeat from a key used again for something else.</param>
public sealed record KeyedRequest(string Caller, string Path, string Key, string BodyHash)
{
    /// <summary>The change is saved together with the key; a second change of the same request has no need to.</summary>
    public bool IsStored { get; set; }
}

/// <summary>The keyed request that is being worked on in this flow of calls, if any.</summary>
public sealed class KeyedRequests
{
    private readonly AsyncLocal<KeyedRequest?> current = new();

    public KeyedRequest? Current
    {
        get => current.Value;
        set => current.Value = value;
    }
}

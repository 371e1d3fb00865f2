namespace ReedShop.Platform.Http;

/// <summary>Which addresses are for scripts and which for people: they are guarded in different ways.</summary>
public static class Doors
{
    /// <summary>Opened by a token, answered in JSON.</summary>
    public static bool IsForScripts(this PathString path) => path.StartsWithSegments("/api", StringComparison.Ordinal);

    /// <summary>Opened by the sender's signature.</summary>
    public static bool IsWebhook(this PathString path) =>
        path.StartsWithSegments("/webhooks", StringComparison.Ordinal);
}

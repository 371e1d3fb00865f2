namespace ReedShop.Platform.Http;

/// <summary>Which addresses are for scripts and which for people: they are guarded in different ways.</summary>
public static class Doors
{
    private static readonly PathString[] AboutTheProgram = ["/docs", "/health", "/openapi", "/problems"];

    /// <summary>Opened by a token, answered in JSON.</summary>
    public static bool IsForScripts(this PathString path) => path.StartsWithSegments("/api", StringComparison.Ordinal);

    /// <summary>The maker's own pages.</summary>
    public static bool IsForOwner(this PathString path) => path.StartsWithSegments("/bench", StringComparison.Ordinal);

    /// <summary>Pages for those who order: the only ones in other languages than English.</summary>
    public static bool IsForBuyers(this PathString path) =>
        path == "/" || path.StartsWithSegments("/orders", StringComparison.Ordinal);

    /// <summary>Opened by the secret in the address itself: a mail program that stops letters has no page to come from.</summary>
    public static bool IsOfLetters(this PathString path) =>
        path.StartsWithSegments("/letters", StringComparison.Ordinal);

    /// <summary>Opened by the sender's signature.</summary>
    public static bool IsWebhook(this PathString path) =>
        path.StartsWithSegments("/webhooks", StringComparison.Ordinal);

    /// <summary>Tells about the program, not about the shop: open whatever state the shop is in.</summary>
    public static bool IsAboutTheProgram(this PathString path) =>
        AboutTheProgram.Any(start => path.StartsWithSegments(start, StringComparison.Ordinal));
}

using Microsoft.Net.Http.Headers;

namespace ReedShop.Platform.Http;

/// <summary>Versions as ETags: read with what was read, required (or at least honoured) when it is changed.</summary>
public static class Versions
{
    public static void SetVersion(this HttpContext http, long version) => http.Response.Headers.ETag = Tag(version);

    /// <summary>428 where If-Match is missing, 412 where it names another version.</summary>
    public static Refusal? RequireVersion(this HttpContext http, long version) =>
        http.Request.Headers.IfMatch.Count == 0
            ? new Refusal(RefusalKind.VersionMissing, "If-Match is missing.", "If-Match", Tag(version))
            : http.HonourVersion(version);

    /// <summary>412 where If-Match is sent and names another version.</summary>
    public static Refusal? HonourVersion(this HttpContext http, long version)
    {
        var sent = http.Request.GetTypedHeaders().IfMatch;
        var matches =
            http.Request.Headers.IfMatch.Count == 0
            || sent.Any(tag => tag.Equals(EntityTagHeaderValue.Any) || tag.Tag == Tag(version));
        return matches
            ? null
            : new Refusal(RefusalKind.ChangedMeanwhile, "It has another version now.", "If-Match", Tag(version));
    }

    private static string Tag(long version) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"\"{version}\"");
}

using System.Security.Cryptography;

namespace ReedShop.Platform.Http;

/// <summary>
/// Pages load nothing from elsewhere and sit in nobody's frame; addresses with links in them are told to nobody.
/// </summary>
internal static class SecurityHeaders
{
    public const string ReferencePath = "/docs/api";

    public const string JobsPath = "/bench/jobs";

    private const string Common =
        "base-uri 'none'; form-action 'self'; frame-ancestors 'none'; object-src 'none'; img-src 'self' data:";

    private const string Pages = $"default-src 'self'; {Common}";

    /// <summary>The job library colours its page by styles on the elements; its scripts are its own files.</summary>
    private const string Jobs = $"default-src 'self'; style-src 'self' 'unsafe-inline'; {Common}";

    private static readonly object NonceKey = new();

    public static void UseSecurityHeaders(this IApplicationBuilder app) =>
        app.Use(
            (http, next) =>
            {
                // The page of the jobs takes its address apart on the way; the policy goes by the one that was asked for.
                var policy = Policy(http);
                http.Response.OnStarting(() => Write(http, policy));
                return next(http);
            }
        );

    /// <summary>The one word by which the reference page's own script may run.</summary>
    public static string Nonce(HttpContext http)
    {
        var nonce = http.Items[NonceKey] as string ?? Convert.ToBase64String(RandomNumberGenerator.GetBytes(18));
        http.Items[NonceKey] = nonce;
        return nonce;
    }

    private static Task Write(HttpContext http, string policy)
    {
        var headers = http.Response.Headers;
        headers.ContentSecurityPolicy = policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers["Permissions-Policy"] = "camera=(), geolocation=(), microphone=()";
        if (headers.CacheControl.Count == 0)
        {
            headers.CacheControl = "private, no-cache";
        }

        return Task.CompletedTask;
    }

    private static string Policy(HttpContext http) =>
        http.Request.Path.StartsWithSegments(ReferencePath, StringComparison.Ordinal) ? Reference(Nonce(http))
        : http.Request.Path.StartsWithSegments(JobsPath, StringComparison.Ordinal) ? Jobs
        : Pages;

    /// <summary>The reference page styles itself as it goes.</summary>
    private static string Reference(string nonce) =>
        $"default-src 'self'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; {Common}";
}

namespace ReedShop.Platform.Http;

/// <summary>
/// Answers are packed on their way: a page of the bench is then a fifth of its size. Over TLS a packed length can
/// betray a secret of the page to somebody who makes a browser ask for it again and again with guesses in the address.
/// That somebody sits on another site, so what another site asks for is not packed; besides, the owner's cookie does
/// not travel with what a foreign page loads, and the tokens in forms are new with every answer.
/// </summary>
internal static class Packing
{
    private static readonly string[] Foreign = ["cross-site", "same-site"];

    public static void AddPacking(this IServiceCollection services) =>
        services.AddResponseCompression(packing => packing.EnableForHttps = true);

    public static void UsePacking(this IApplicationBuilder app) =>
        app.UseWhen(http => !IsForeign(http.Request), own => own.UseResponseCompression());

    private static bool IsForeign(HttpRequest request) =>
        Foreign.Contains(request.Headers["Sec-Fetch-Site"].ToString(), StringComparer.Ordinal);
}

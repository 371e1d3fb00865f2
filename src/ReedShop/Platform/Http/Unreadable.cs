using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Metadata;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Http;

/// <summary>The refusal of a request that could not be read: where it went wrong, and what is taken there.</summary>
internal static partial class Unreadable
{
    public static Refusal Of(HttpContext http, BadHttpRequestException fault) =>
        http.Request.Path.IsForScripts() || http.Request.Path.IsWebhook() ? OfScript(http, fault) : OfPage(fault);

    /// <summary>People send what a page has given them; they are not told its names for things.</summary>
    private static Refusal OfPage(BadHttpRequestException fault) =>
        fault.StatusCode == StatusCodes.Status413PayloadTooLarge
            ? new Refusal(RefusalKind.TooLarge, FrameTexts.Say["Empty.tooLarge"])
            : new Refusal(
                RefusalKind.Unreadable,
                FrameTexts.Say["Empty.unreadable"],
                Allowed: FrameTexts.Say["Empty.unreadable.instead"]
            );

    private static Refusal OfScript(HttpContext http, BadHttpRequestException fault) =>
        fault switch
        {
            { StatusCode: StatusCodes.Status413PayloadTooLarge } => new Refusal(
                RefusalKind.TooLarge,
                "The body is larger than this address takes.",
                Allowed: $"{HttpSetup.MostBodyMegabytes} MB"
            ),
            { StatusCode: StatusCodes.Status415UnsupportedMediaType } => Read(
                "The body is of another kind.",
                "Content-Type",
                "application/json"
            ),
            { InnerException: JsonException json } => Body(http, json),
            _ when Parameter().Match(fault.Message) is { Success: true } parameter => Read(
                $"{parameter.Groups["name"].Value} is missing or cannot be read.",
                parameter.Groups["name"].Value,
                null
            ),
            _ => Read("The request has no body, or not one that can be read.", null, "JSON of the documented shape"),
        };

    private static Refusal Body(HttpContext http, JsonException json)
    {
        var path = json.Path is { Length: > 0 } known ? known : "$";
        var member = path == "$" ? "the body" : path[2..];
        var missing = Missing().Match(json.Message);
        var unknown = json.Message.Contains("could not be mapped", StringComparison.Ordinal);
        return Read(
            missing.Success
                    ? $"Missing in {member}: {missing.Groups["names"].Value.Replace("'", "", StringComparison.Ordinal).TrimEnd('.')}."
                : unknown ? $"There is no member {member}."
                : $"{member} cannot be read.",
            member,
            Allowed(http, json, unknown ? path[..Math.Max(path.LastIndexOf('.'), 1)] : path)
        );
    }

    private static string? Allowed(HttpContext http, JsonException json, string path)
    {
        if (json.Message.StartsWith("Send ", StringComparison.Ordinal))
        {
            return json.Message["Send ".Length..].TrimEnd('.');
        }

        var body = http
            .Features.Get<IExceptionHandlerFeature>()
            ?.Endpoint?.Metadata.GetMetadata<IAcceptsMetadata>()
            ?.RequestType;
        return body is null ? null : http.RequestServices.GetRequiredService<JsonShape>().At(body, path);
    }

    private static Refusal Read(string detail, string? field, string? allowed) =>
        new(RefusalKind.Unreadable, detail, field, allowed);

    [GeneratedRegex("including: (?<names>.+)$", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Missing();

    [GeneratedRegex("parameter \"\\S+ (?<name>\\w+)\"", RegexOptions.ExplicitCapture | RegexOptions.NonBacktracking)]
    private static partial Regex Parameter();
}

using System.Reflection;
using Microsoft.AspNetCore.Http.Metadata;
using Microsoft.AspNetCore.Mvc;

namespace ReedShop.Platform.Http;

/// <summary>The one answer for refusals: a problem document (RFC 9457) with `field` and `allowed` where they help.</summary>
public sealed class Refused(Refusal refusal) : IResult, IEndpointMetadataProvider
{
    public const string RetryAfterSeconds = "1";

    public static implicit operator Refused(Refusal refusal) => new(refusal);

    public static void PopulateMetadata(MethodInfo method, EndpointBuilder builder)
    {
        foreach (var status in RefusalKind.All.Select(kind => kind.Status).Distinct())
        {
            builder.Metadata.Add(
                new ProducesResponseTypeMetadata(status, typeof(ProblemDetails), ["application/problem+json"])
            );
        }
    }

    public Task ExecuteAsync(HttpContext httpContext)
    {
        if (refusal.Kind == RefusalKind.Busy)
        {
            httpContext.Response.Headers.RetryAfter = RetryAfterSeconds;
        }

        httpContext.Response.StatusCode = refusal.Kind.Status;
        return httpContext.Response.WriteAsJsonAsync(
            Document(httpContext.Request.Path),
            ShopJson.Options,
            "application/problem+json"
        );
    }

    private Dictionary<string, object> Document(string instance)
    {
        var document = new Dictionary<string, object>(StringComparer.Ordinal)
        {
            ["type"] = ProblemView.TypeOf(refusal.Kind),
            ["title"] = refusal.Kind.Title,
            ["status"] = refusal.Kind.Status,
            ["detail"] = refusal.Detail,
            ["instance"] = instance,
        };
        if (refusal.Field is { } field)
        {
            document["field"] = field;
        }

        if (refusal.Allowed is { } allowed)
        {
            document["allowed"] = allowed;
        }

        if (refusal.Extra is { } extra)
        {
            document[extra.Name] = extra.Value;
        }

        return document;
    }
}

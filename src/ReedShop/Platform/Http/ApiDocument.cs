using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using ReedShop.Planning;
using ReedShop.Platform.Idempotency;
using Scalar.AspNetCore;

namespace ReedShop.Platform.Http;

/// <summary>The API as a document for programs and a page for people.</summary>
internal static class ApiDocument
{
    private const string Version = "v1";

    public static void AddApiDocument(this IServiceCollection services) =>
        services.AddOpenApi(
            Version,
            options =>
            {
                options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
                options.ShouldInclude = description =>
                    new PathString($"/{description.RelativePath}") is var path
                    && (path.IsForScripts() || path.StartsWithSegments("/problems", StringComparison.Ordinal));
                options.AddDocumentTransformer(Introduce);
                options.AddOperationTransformer(Lock);
                options.AddOperationTransformer(Key);
                options.AddSchemaTransformer(Shape);
            }
        );

    public static void MapApiDocument(this IEndpointRouteBuilder routes)
    {
        routes.MapOpenApi("/openapi/{documentName}.json");
        routes
            .MapScalarApiReference(
                SecurityHeaders.ReferencePath,
                (options, http) =>
                    options
                        .WithTitle("ReedShop API")
                        .WithNonce(SecurityHeaders.Nonce(http))
                        .WithOpenApiRoutePattern($"/openapi/{Version}.json")
                        .DisableDefaultFonts()
                        .DisableTelemetry()
                        .DisableAgent()
                        .DisableMcp()
                        .HideClientButton()
                        .HideDeveloperTools()
            )
            .ExcludeFromDescription();
    }

    private static Task Introduce(
        OpenApiDocument document,
        OpenApiDocumentTransformerContext context,
        CancellationToken cancel
    )
    {
        document.Info = new OpenApiInfo
        {
            Title = "ReedShop",
            Version = Version,
            Description =
                "Orders, promises and the bench of one reed maker. Refusals are problem documents (RFC 9457) of the kinds at /problems. "
                + "POST takes an Idempotency-Key: the same key and body within 48 hours get the first answer again.",
        };
        document.Servers = [];
        document.Components ??= new OpenApiComponents();
        document.Components.SecuritySchemes = new Dictionary<string, IOpenApiSecurityScheme>(StringComparer.Ordinal)
        {
            [Access.OwnerToken] = new OpenApiSecurityScheme { Type = SecuritySchemeType.Http, Scheme = "bearer" },
        };
        return Task.CompletedTask;
    }

    private static Task Lock(
        OpenApiOperation operation,
        OpenApiOperationTransformerContext context,
        CancellationToken cancel
    )
    {
        if (context.Description.ActionDescriptor.EndpointMetadata.OfType<IAuthorizeData>().Any())
        {
            var scheme = new OpenApiSecuritySchemeReference(Access.OwnerToken, context.Document);
            operation.Security = [new OpenApiSecurityRequirement { [scheme] = [] }];
        }

        return Task.CompletedTask;
    }

    private static Task Key(
        OpenApiOperation operation,
        OpenApiOperationTransformerContext context,
        CancellationToken cancel
    )
    {
        if (context.Description.HttpMethod == HttpMethods.Post)
        {
            operation.Parameters ??= [];
            operation.Parameters.Add(
                new OpenApiParameter
                {
                    Name = IdempotentPosts.Header,
                    In = ParameterLocation.Header,
                    Description = "Any text of your own, best a random UUID: a repeat with it gets the first answer.",
                    Schema = new OpenApiSchema
                    {
                        Type = JsonSchemaType.String,
                        MinLength = 1,
                        MaxLength = IdempotentPosts.MostKeyCharacters,
                    },
                }
            );
        }

        return Task.CompletedTask;
    }

    /// <summary>Types with a converter of ours, which the generator cannot look into.</summary>
    private static Task Shape(OpenApiSchema schema, OpenApiSchemaTransformerContext context, CancellationToken cancel)
    {
        var type = context.JsonTypeInfo.Type;
        if (type == typeof(Strength) || type == typeof(Strength?))
        {
            schema.Type = JsonSchemaType.Number;
            schema.MultipleOf = 0.25m;
            schema.Description = $"Strength: {Strength.Allowed}.";
        }
        else if (type == typeof(TimeOnly) || type == typeof(TimeOnly?))
        {
            schema.Type = JsonSchemaType.String | (type == typeof(TimeOnly?) ? JsonSchemaType.Null : default);
            schema.Format = null;
            schema.Pattern = "^[0-2][0-9]:[0-5][0-9]$";
            schema.Description = "A local clock time such as 18:30.";
        }

        return Task.CompletedTask;
    }
}

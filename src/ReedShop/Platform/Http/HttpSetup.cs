using Microsoft.AspNetCore.Http.Json;
using Microsoft.Extensions.Options;
using ReedShop.Platform.Idempotency;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Logging;

namespace ReedShop.Platform.Http;

public static class HttpSetup
{
    /// <summary>Enough for some years of a workshop's records in one file.</summary>
    public const int MostBodyMegabytes = 20;

    public static void AddHttp(this WebApplicationBuilder builder)
    {
        var services = builder.Services;
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.AddServerHeader = false;
            kestrel.Limits.MaxRequestBodySize = MostBodyMegabytes * 1024 * 1024;
        });
        services.ConfigureHttpJsonOptions(json => ShopJson.Configure(json.SerializerOptions));
        services.AddSingleton(provider => new JsonShape(
            provider.GetRequiredService<IOptions<JsonOptions>>().Value.SerializerOptions
        ));
        services.Configure<RouteHandlerOptions>(routes => routes.ThrowOnBadRequest = true);
        services.AddExceptionHandler<Faults>();
        services.AddAntiforgery();
        services.AddRazorComponents();
        services.AddLanguages();
        services.AddComputingGate();
        services.AddPacking();
        services.AddApiDocument();
    }

    /// <summary>Everything between the socket and the endpoints, outermost first.</summary>
    public static void UseHttp(this WebApplication app)
    {
        app.UseSecurityHeaders();
        app.UsePacking();
        app.UseOwnFiles();
        app.UseLanguages();
        app.UseRequestLogs();
        app.UseExceptionHandler(_ => { });
        app.UseStatusCodePages(EmptyAnswers.Fill);
        app.UseRouting();
        app.UseAuthentication();
        app.UseAuthorization();
        app.UseMiddleware<FormGuard>();
        app.UseAntiforgery();
        app.UseMiddleware<IdempotentPosts>();
        app.UseComputingGate();
    }
}

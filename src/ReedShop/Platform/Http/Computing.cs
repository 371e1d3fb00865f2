using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;
using ReedShop.Platform.Layout;

namespace ReedShop.Platform.Http;

/// <summary>
/// The gate before requests that compute promises and sizes: a burst of them waits its turn, or is sent away at once,
/// instead of slowing every answer down until none comes in time.
/// </summary>
public static class Computing
{
    /// <summary>The name of the policy, by which endpoints ask for the gate.</summary>
    public const string Policy = "computing";

    /// <summary>Draws use every core by themselves; a second request works while the first waits for the database.</summary>
    public const int MostAtOnce = 2;

    public const int MostWaiting = 16;

    private static Refusal Full => new(RefusalKind.Busy, FrameTexts.Say["TooManyAtOnce"]);

    public static void AddComputingGate(this IServiceCollection services) =>
        services.AddRateLimiter(limiter =>
        {
            limiter.AddConcurrencyLimiter(
                Policy,
                gate =>
                {
                    gate.PermitLimit = MostAtOnce;
                    gate.QueueLimit = MostWaiting;
                    gate.QueueProcessingOrder = QueueProcessingOrder.OldestFirst;
                }
            );
            limiter.OnRejected = (rejected, _) => new(Refuse(rejected.HttpContext));
        });

    /// <summary>
    /// Whoever sends slowly is read to the end before the gate, so that no sender can hold a place in it by sending
    /// nothing.
    /// </summary>
    public static void UseComputingGate(this IApplicationBuilder app)
    {
        app.Use(
            async (http, next) =>
            {
                if (IsGated(http))
                {
                    http.Request.EnableBuffering();
                    await http.Request.Body.CopyToAsync(Stream.Null, http.RequestAborted);
                    http.Request.Body.Position = 0;
                }

                await next(http);
            }
        );
        app.UseRateLimiter();
    }

    private static bool IsGated(HttpContext http) =>
        http.GetEndpoint()?.Metadata.GetMetadata<EnableRateLimitingAttribute>() is not null;

    private static Task Refuse(HttpContext http)
    {
        if (http.Request.Path.IsForScripts())
        {
            return new Refused(Full).ExecuteAsync(http);
        }

        http.Response.Headers.RetryAfter = Refused.RetryAfterSeconds;
        return Pages.TryAgain(Full, http.Request).ExecuteAsync(http);
    }
}

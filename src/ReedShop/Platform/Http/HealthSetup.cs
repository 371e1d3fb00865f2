using Microsoft.AspNetCore.Diagnostics.HealthChecks;

namespace ReedShop.Platform.Http;

/// <summary>Alive: the process answers. Ready: it has its database, in the shape it needs.</summary>
internal static class HealthSetup
{
    public static void MapHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapHealthChecks("/health/alive", new HealthCheckOptions { Predicate = _ => false });
        routes.MapHealthChecks("/health/ready");
    }
}

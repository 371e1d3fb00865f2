using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace ReedShop.Platform.Storage;

internal sealed class StorageHealth(ShopDb db) : IHealthCheck
{
    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context,
        CancellationToken cancellationToken = default
    )
    {
        try
        {
            return (await db.Database.GetPendingMigrationsAsync(cancellationToken)).Any()
                ? HealthCheckResult.Unhealthy("The database is of another version.")
                : HealthCheckResult.Healthy();
        }
        catch (System.Data.Common.DbException fault)
        {
            return HealthCheckResult.Unhealthy("The database cannot be read.", fault);
        }
    }
}

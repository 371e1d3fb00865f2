using Microsoft.EntityFrameworkCore;

namespace ReedShop.Platform.Storage;

/// <summary>Brings the database to the shape this version expects. Runs once, under the folder lock.</summary>
public sealed class StorageStart(IServiceScopeFactory scopes)
{
    private const string MigrationLock = "__EFMigrationsLock";

    public async Task Open()
    {
        await using var scope = scopes.CreateAsyncScope();
        var db = scope.ServiceProvider.GetRequiredService<ShopDb>();
        await db.Database.ExecuteSqlRawAsync("PRAGMA journal_mode = WAL;");
        await ClearMigrationLock(db);
        await db.Database.MigrateAsync();
    }

    /// <summary>A process that died while migrating leaves its row behind, and the next would wait for it for ever.</summary>
    private static async Task ClearMigrationLock(ShopDb db)
    {
        var tables = await db
            .Database.SqlQuery<int>($"SELECT COUNT(*) AS Value FROM sqlite_master WHERE name = {MigrationLock}")
            .SingleAsync();
        if (tables > 0)
        {
            await db.Database.ExecuteSqlRawAsync($"DELETE FROM \"{MigrationLock}\";");
        }
    }
}

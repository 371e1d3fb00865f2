using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Identity;
using Microsoft.EntityFrameworkCore;

namespace ReedShop.Platform.Storage;

public static class StorageSetup
{
    public static void AddStorage(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddSingleton<DataFolder>();
        services.AddSingleton<FolderLock>();
        services.AddSingleton<Backups>();
        services.AddSingleton<StorageStart>();
        services.AddSingleton<FactsSignal>();
        services.AddSingleton<FactsGate>();
        services.AddScoped<JournalStore>();
        services.AddScoped<OutboxStore>();
        services.AddScoped<InboxStore>();
        services.Configure<IdentityOptions>(ShopDb.ConfigureAccounts);
        services.AddDbContext<ShopDb, SqliteShopDb>(
            (provider, options) =>
                options
                    .UseSqlite($"Data Source={provider.GetRequiredService<DataFolder>().Database}")
                    .AddInterceptors(new SqlitePragmas())
        );
        services.AddHealthChecks().AddCheck<StorageHealth>("database");
        services.AddDataProtection().SetApplicationName("ReedShop").PersistKeysToDbContext<ShopDb>();
    }
}

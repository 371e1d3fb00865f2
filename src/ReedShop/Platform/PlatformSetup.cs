using Microsoft.Extensions.DependencyInjection.Extensions;
using Microsoft.Extensions.Options;
using ReedShop.Platform.Http;
using ReedShop.Platform.Idempotency;
using ReedShop.Platform.Logging;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;

namespace ReedShop.Platform;

public static class PlatformSetup
{
    public static void AddPlatform(this WebApplicationBuilder builder)
    {
        builder.Services.AddOptions<ReedShopOptions>().BindConfiguration(ReedShopOptions.Section).ValidateOnStart();
        builder.Services.AddSingleton<IValidateOptions<ReedShopOptions>, ReedShopOptionsRules>();
        builder.Services.TryAddSingleton(TimeProvider.System);
        builder.Services.AddSingleton<ShopClock>();
        builder.Services.AddSingleton<PublicAddress>();
        builder.AddLogs();
        builder.AddStorage();
        builder.AddTicks();
        builder.AddIdempotency();
        builder.AddHttp();
    }

    public static void MapPlatform(this WebApplication app)
    {
        app.MapHealth();
        app.MapProblems();
        app.MapApiDocument();
        app.MapJobs();
    }
}

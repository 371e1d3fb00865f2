using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Watch;

public static class WatchSetup
{
    public static void AddWatch(this IHostApplicationBuilder builder)
    {
        var services = builder.Services;
        services.AddSingleton<LastAnswer<WatchKey, WatchView>>();
        services.AddScoped<WatchReader>();
        services.AddScoped<Moving>();
        services.AddScoped<Rescuing>();
        services.AddScoped<TonightReader>();
        services.AddScoped<IForecastFollower, RiskAlerts>();
    }
}

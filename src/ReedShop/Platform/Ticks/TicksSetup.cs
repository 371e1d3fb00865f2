using Hangfire;
using Hangfire.InMemory;

namespace ReedShop.Platform.Ticks;

public static class TicksSetup
{
    public static void AddTicks(this IHostApplicationBuilder builder)
    {
        builder.Services.AddSingleton<JobStorage>(_ => new InMemoryStorage());
        builder.Services.AddScoped<TickRunner>();
        builder.Services.AddJobsPage();
        builder.Services.AddHostedService<TickServer>();
    }

    public static void AddTick<T>(this IHostApplicationBuilder builder, string name)
        where T : class, ITick
    {
        builder.Services.AddSingleton(new TickName(name));
        builder.Services.AddScoped<T>();
        builder.Services.AddKeyedScoped<ITick>(name, (services, _) => services.GetRequiredService<T>());
    }
}

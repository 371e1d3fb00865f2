namespace ReedShop.Insight;

public static class InsightSetup
{
    public static void AddInsight(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<YieldReader>();
        builder.Services.AddScoped<SizingReader>();
        builder.Services.AddScoped<YieldPageReader>();
        builder.Services.AddScoped<PromisesKeptReader>();
    }
}

namespace ReedShop.Opening;

public static class OpeningSetup
{
    public static void AddOpening(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<WalkReader>();
        builder.Services.AddScoped<WalkPages>();
        builder.Services.AddScoped<FirstPromises>();
    }

    public static void MapOpening(this IEndpointRouteBuilder routes) => routes.MapOpeningPages();
}

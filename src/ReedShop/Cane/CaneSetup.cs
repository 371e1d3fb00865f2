namespace ReedShop.Cane;

public static class CaneSetup
{
    public static void AddCane(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<CaneStore>();
        builder.Services.AddScoped<CaneCommands>();
    }

    public static void MapCane(this IEndpointRouteBuilder routes)
    {
        routes.MapCaneApi();
        routes.MapCanePages();
    }
}

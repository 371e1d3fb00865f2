namespace ReedShop.Shop;

public static class ShopSetup
{
    public static void AddShop(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<ShopStore>();
        builder.Services.AddScoped<ShopCommands>();
        builder.Services.AddScoped<DaysOff>();
    }

    public static void MapShop(this IEndpointRouteBuilder routes)
    {
        routes.MapShopApi();
        routes.MapShopPages();
        routes.MapBusyTimesApi();
        routes.MapDaysOffPages();
    }
}

namespace ReedShop.Shop;

public static class ShopSetup
{
    public static void AddShop(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<ShopStore>();
        builder.Services.AddScoped<ShopCommands>();
    }

    public static void MapShop(this IEndpointRouteBuilder routes)
    {
        routes.MapShopApi();
        routes.MapShopPages();
    }
}

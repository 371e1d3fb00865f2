using ReedShop.Platform.Ticks;

namespace ReedShop.Shop;

public static class ShopSetup
{
    public static void AddShop(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<ShopStore>();
        builder.Services.AddScoped<ShopCommands>();
        builder.Services.AddScoped<DaysOff>();
        builder.AddTick<NightlyBackup>("nightly-backup");
    }

    public static void MapShop(this IEndpointRouteBuilder routes)
    {
        routes.MapShopApi();
        routes.MapShopPages();
        routes.MapShippingTermsPages();
        routes.MapBusyTimesApi();
        routes.MapDaysOffPages();
        routes.MapBackupsPages();
    }
}

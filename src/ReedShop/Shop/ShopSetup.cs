namespace ReedShop.Shop;

public static class ShopSetup
{
    public static void AddShop(this IHostApplicationBuilder builder) => builder.Services.AddScoped<ShopStore>();
}

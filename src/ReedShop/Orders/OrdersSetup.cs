using ReedShop.Shop;

namespace ReedShop.Orders;

public static class OrdersSetup
{
    public static void AddOrders(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<OrderStore>();
        builder.Services.AddScoped<AnyOrders>(provider => provider.GetRequiredService<OrderStore>().Any);
        builder.Services.AddScoped<ExchangeLetters>();
        builder.Services.AddScoped<Exchanging>();
    }
}

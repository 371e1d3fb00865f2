namespace ReedShop.Orders;

public static class OrdersSetup
{
    public static void AddOrders(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<OrderStore>();
        builder.Services.AddScoped<ExchangeLetters>();
        builder.Services.AddScoped<Exchanging>();
    }
}

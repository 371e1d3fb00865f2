namespace ReedShop.Shipping;

public static class ShippingSetup
{
    public static void AddShipping(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<Parcels>();
    }
}

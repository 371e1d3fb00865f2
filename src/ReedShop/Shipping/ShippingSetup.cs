using ReedShop.Platform.Ticks;

namespace ReedShop.Shipping;

public static class ShippingSetup
{
    public static void AddShipping(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<Parcels>();
        builder.AddTick<ReadyLetters>("ready-letters");
    }
}

namespace ReedShop.Checkout;

public static class CheckoutSetup
{
    public static void AddCheckout(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<Acceptance>();
        builder.Services.AddScoped<Accepting>();
        builder.Services.AddScoped<Cancelling>();
        builder.Services.AddScoped<Ordering>();
        builder.Services.AddScoped<FormCheck>();
    }
}

namespace ReedShop.Payments;

public static class PaymentsSetup
{
    public static void AddPayments(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<Invoices>();
    }
}

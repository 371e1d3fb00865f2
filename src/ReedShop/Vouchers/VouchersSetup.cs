namespace ReedShop.Vouchers;

public static class VouchersSetup
{
    public static void AddVouchers(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<VoucherStore>();
        builder.Services.AddScoped<VoucherCheck>();
        builder.Services.AddScoped<VoucherCommands>();
        builder.Services.AddScoped<VoucherReader>();
    }

    public static void MapVouchers(this IEndpointRouteBuilder routes)
    {
        routes.MapVoucherApi();
        routes.MapVoucherPages();
    }
}

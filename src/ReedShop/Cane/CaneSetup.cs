namespace ReedShop.Cane;

public static class CaneSetup
{
    public static void AddCane(this IHostApplicationBuilder builder) => builder.Services.AddScoped<CaneStore>();
}

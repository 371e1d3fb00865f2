namespace ReedShop.Catalogue;

public static class CatalogueSetup
{
    public static void AddCatalogue(this IHostApplicationBuilder builder) =>
        builder.Services.AddScoped<CatalogueStore>();
}

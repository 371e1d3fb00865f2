namespace ReedShop.Catalogue;

public static class CatalogueSetup
{
    public static void AddCatalogue(this IHostApplicationBuilder builder)
    {
        builder.Services.AddScoped<CatalogueStore>();
        builder.Services.AddScoped<CatalogueCommands>();
    }

    public static void MapCatalogue(this IEndpointRouteBuilder routes)
    {
        routes.MapCatalogueApi();
        routes.MapCataloguePages();
    }
}

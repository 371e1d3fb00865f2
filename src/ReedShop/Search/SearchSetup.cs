namespace ReedShop.Search;

public static class SearchSetup
{
    public static void AddSearch(this IHostApplicationBuilder builder) => builder.Services.AddScoped<Searching>();

    public static void MapSearch(this IEndpointRouteBuilder routes)
    {
        routes.MapSearchApi();
        routes.MapSearchPages();
    }
}

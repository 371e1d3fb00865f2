using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Search;

public static class SearchApi
{
    public static void MapSearchApi(this IEndpointRouteBuilder routes) =>
        routes
            .MapGet("/api/search", Find)
            .WithTags("Search")
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("Finds orders and batches.")
            .WithDescription(
                $"q is {SearchWords.Allowed}. Neither case nor accents count, and several words must all be found. The "
                    + $"first {Searching.MostShown} orders and batches are answered, and how many more there are."
            );

    private static async Task<Results<Ok<Found>, Refused>> Find(
        string q,
        Searching searching,
        CancellationToken cancel
    ) => (await searching.Find(q, cancel)).OkOrRefused();
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class MarkerApi
{
    public static void MapMarkers(this IEndpointRouteBuilder routes)
    {
        var markers = routes
            .MapGroup("/api/yields/markers")
            .WithTags("Insight")
            .RequireAuthorization(Access.OwnerToken);
        markers.MapGet("", List).WithSummary("Markers: days before which batches count less in the yields.");
        markers.MapPost("", Set).WithSummary("Sets a marker, such as a new blade, for a model or for all.");
        markers.MapDelete("{id}", Remove).WithSummary("Removes a marker.");
    }

    private static async Task<Ok<IEnumerable<MarkerView>>> List(MarkerStore markers, CancellationToken cancel) =>
        TypedResults.Ok((await markers.All(cancel)).Select(MarkerView.Of));

    private static async Task<Results<Created<MarkerView>, Refused>> Set(
        MarkerWish wish,
        MarkerCommands markers,
        CancellationToken cancel
    ) => (await markers.Set(wish, cancel)).CreatedOrRefused(_ => "/api/yields/markers");

    private static async Task<Results<Ok<MarkerView>, Refused>> Remove(
        string id,
        MarkerCommands markers,
        CancellationToken cancel
    ) => (await markers.Remove(id, cancel)).OkOrRefused();
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class StartingApi
{
    public static void MapStartingState(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost("/api/starting-state", Write)
            .WithTags("Workshop")
            .RequireAuthorization(Access.OwnerToken)
            .WithSummary("The state on the first day: drawer, shelf, batches half-way, promises already given.");

    private static async Task<Results<Ok<StartedView>, Refused>> Write(
        StartingWish wish,
        StartingCommands starting,
        CancellationToken cancel
    ) => (await starting.Write(wish, cancel)).OkOrRefused();
}

using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Shop;

namespace ReedShop.Watch;

/// <param name="Minutes">To be added to what the day offers.</param>
public sealed record LongerWish(int Minutes);

public static class WatchApi
{
    public static void MapWatch(this IEndpointRouteBuilder routes)
    {
        var watch = routes.MapGroup("/api").WithTags("Watch").RequireAuthorization(Access.OwnerToken);
        watch
            .MapGet("orders/{id}/watch", Read)
            .RequireRateLimiting(Computing.Policy)
            .WithSummary("How a promise stands by fresh draws, and what would help. Takes a few seconds.");
        watch
            .MapPost("orders/{id}/move", Move)
            .WithSummary("Gives an order another promised day and tells the buyer. If-Match is the ETag of the order.");
        watch
            .MapPost("orders/{id}/elsewhere", MakeElsewhere)
            .WithSummary("Has some of its reeds made elsewhere: an extra batch, one under way, or the drawer.");
        watch.MapPost("orders/{id}/ask", Ask).WithSummary("Asks the buyer whether another strength would do as well.");
        watch.MapPost("days/{date}/longer", OpenLonger).WithSummary("Opens the bench for longer on one day.");
        watch
            .MapGet("tonight", Tonight)
            .RequireRateLimiting(Computing.Policy)
            .WithSummary("What is worth doing in so many minutes today, by what the chances of the promises gain.");
        routes
            .MapPost("/api/orders/{id}/strength", Answer)
            .WithTags("Watch")
            .WithSummary("The buyer's answer to a strength that was asked for.");
        routes.MapWatchPages();
    }

    private static async Task<Results<Ok<WatchView>, Refused>> Read(
        string id,
        WatchReader reader,
        CancellationToken cancel
    ) => (await reader.Read(id, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> Move(
        string id,
        MoveDateWish wish,
        Moving moving,
        HttpContext http,
        CancellationToken cancel
    ) => (await moving.Move(id, wish, http.RequireVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> MakeElsewhere(
        string id,
        ElsewhereWish wish,
        Rescuing rescuing,
        HttpContext http,
        CancellationToken cancel
    ) => (await rescuing.MakeElsewhere(id, wish, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> Ask(
        string id,
        AskWish wish,
        Rescuing rescuing,
        HttpContext http,
        CancellationToken cancel
    ) => (await rescuing.Ask(id, wish, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OrderView>, Refused>> Answer(
        string id,
        StrengthAnswer answer,
        Rescuing rescuing,
        HttpContext http,
        CancellationToken cancel
    ) => (await rescuing.Answer(id, answer, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<OtherDay>, Refused>> OpenLonger(
        DateOnly date,
        LongerWish wish,
        ShopCommands shop,
        CancellationToken cancel
    ) => (await shop.OpenLonger(date, wish.Minutes, cancel)).OkOrRefused();

    private static async Task<Results<Ok<TonightView>, Refused>> Tonight(
        int minutes,
        TonightReader reader,
        CancellationToken cancel
    ) => (await reader.Read(minutes, cancel)).OkOrRefused();
}

using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Shop;

public static class BusyTimesApi
{
    private const string Body = "body";

    public static void MapBusyTimesApi(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost("/api/shop/busy-times", Take)
            .WithTags("Shop")
            .RequireAuthorization(Access.OwnerToken)
            .Accepts<string>("text/calendar")
            .WithSummary("Takes the busy times of a calendar file out of the bench hours of the coming year.")
            .WithDescription(
                $"The body is {BusyFile.Allowed}. Events marked transparent or cancelled are not busy, whole days close the "
                    + "bench and stop parcels, other times leave what is left of an evening open. With preview=true nothing is "
                    + "kept; leaveOut, which may be repeated, takes keys of the answer's times out again. The same file again "
                    + "changes nothing. If-Match with the ETag of the shop or of a preview is honoured."
            );

    private static async Task<Results<Ok<BusyTimesView>, Refused>> Take(
        HttpContext http,
        DaysOff days,
        ShopStore shops,
        CancellationToken cancel,
        bool preview = false,
        [FromQuery] string[]? leaveOut = null
    )
    {
        var file = await BusyFile.Text(http.Request.Body, Body, cancel);
        if (file.Refusal is { } unread)
        {
            return (Refused)unread;
        }

        var leftOut = (leaveOut ?? []).ToHashSet(StringComparer.Ordinal);
        var answer = preview
            ? await Look(http, days, shops, file.Value, leftOut, cancel)
            : await Keep(http, days, file.Value, leftOut, cancel);
        return answer.OkOrRefused();
    }

    private static async Task<Result<BusyTimesView>> Look(
        HttpContext http,
        DaysOff days,
        ShopStore shops,
        string file,
        HashSet<string> leftOut,
        CancellationToken cancel
    )
    {
        var look = await days.Look(file, Body, cancel);
        if (look.Refusal is { } refusal)
        {
            return refusal;
        }

        var shop = await shops.Get(cancel);
        http.SetVersion(shop.Version);
        var changes = look.Value.Days(shop, leftOut);
        var sittings = await days.Standing(changes.Select(change => change.Date), cancel);
        return BusyTimesView.Of(kept: false, look.Value, leftOut, changes, sittings);
    }

    private static async Task<Result<BusyTimesView>> Keep(
        HttpContext http,
        DaysOff days,
        string file,
        HashSet<string> leftOut,
        CancellationToken cancel
    )
    {
        var kept = await days.Keep(file, Body, leftOut, version => http.HonourVersion(version), cancel);
        if (kept.Refusal is { } refusal)
        {
            return refusal;
        }

        http.SetVersion(kept.Value.Changed.Version);
        var sittings = await days.Standing(kept.Value.Days.Select(change => change.Date), cancel);
        return BusyTimesView.Of(kept: true, kept.Value.Look, leftOut, kept.Value.Days, sittings);
    }
}

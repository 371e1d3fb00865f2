using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class PlanApi
{
    public static void MapPlan(this IEndpointRouteBuilder routes)
    {
        var plan = routes.MapGroup("/api").WithTags("Plan").RequireAuthorization(Access.OwnerToken);
        plan.MapGet("week", Week).WithSummary("Seven days and nights from a day on; from Monday where none is sent.");
        plan.MapGet("day/{date}", Day).WithSummary("The day list: the steps of a day with clock times.");
        plan.MapGet("drying", Drying)
            .WithSummary(
                "Whether a night in this air should dry blanks: a hint computed for wood, which no plan reads."
            );
        plan.MapGet("outlook", Outlook)
            .WithSummary("The chances of the open promises by draws of the whole shop, the least likely first.");
        plan.MapPost("sittings/{id}/move", Move)
            .WithSummary("Moves a sitting, or shows what a move would change. If-Match is the ETag of the week.");
        plan.MapPost("sittings/{id}/release", Release)
            .WithSummary("Lets the plan choose the day of a moved sitting again. If-Match is the ETag of the week.");
    }

    private static async Task<Results<Ok<MoveView>, Refused>> Release(
        string id,
        SittingMoves moves,
        HttpContext http,
        CancellationToken cancel
    ) => (await moves.Release(id, http.RequireVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<WeekView>, Refused>> Week(
        WeekReader reader,
        PlanStore plan,
        HttpContext http,
        CancellationToken cancel,
        DateOnly? from = null
    )
    {
        http.SetVersion(await plan.FactsVersion(cancel));
        return (await reader.Read(from, cancel)).OkOrRefused();
    }

    private static async Task<Results<Ok<DayView>, Refused>> Day(
        DateOnly date,
        DayReader reader,
        CancellationToken cancel
    ) => (await reader.Read(date, cancel)).OkOrRefused();

    private static Results<Ok<DryingHint>, Refused> Drying(double celsius, double humidity) =>
        DryingHint.Of(celsius, humidity).OkOrRefused();

    private static async Task<Results<Ok<IReadOnlyList<OutlookView>>, Refused>> Outlook(
        OutlookReader reader,
        CancellationToken cancel
    ) => (await reader.Read(cancel)).OkOrRefused();

    private static async Task<Results<Ok<MoveView>, Refused>> Move(
        string id,
        MoveWish wish,
        SittingMoves moves,
        HttpContext http,
        CancellationToken cancel
    ) =>
        (
            wish.Preview
                ? await moves.Preview(id, wish.Date, cancel)
                : await moves.Keep(id, wish.Date, http.RequireVersion, cancel)
        ).OkOrRefused();
}

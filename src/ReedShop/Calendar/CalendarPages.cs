using System.Security.Cryptography;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.Net.Http.Headers;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Calendar;

/// <summary>The feed for calendars, and the page on which its owner makes and ends the link to it.</summary>
public static class CalendarPages
{
    public const string Address = "/bench/calendar";

    public static void MapCalendar(this IEndpointRouteBuilder routes)
    {
        routes.MapMethods("/calendar/{secret}.ics", ["GET", "HEAD"], Feed).ExcludeFromDescription();
        var page = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        page.MapGet("", Show);
        page.MapPost("", Make);
        page.MapPost("nights", ChooseNights);
        page.MapPost("end", End);
    }

    private static async Task<Results<FileContentHttpResult, Refused>> Feed(
        string secret,
        CalendarReader reader,
        CancellationToken cancel
    )
    {
        if (await reader.Read(secret, cancel) is not { } feed)
        {
            return (Refused)Refusal.Missing("calendar by that link");
        }

        var mark = Convert.ToHexStringLower(SHA256.HashData(feed).AsSpan(0, 8));
        return TypedResults.Bytes(
            feed,
            "text/calendar; charset=utf-8",
            entityTag: new EntityTagHeaderValue($"\"{mark}\"")
        );
    }

    private static async Task<IResult> Show(CalendarStore calendar, CancellationToken cancel) =>
        Page(await calendar.Find(cancel), null);

    /// <summary>
    /// The link is in the answer itself and nowhere else: sent on to a page of its own, its secret would stand in the
    /// history of the browser, or in the database.
    /// </summary>
    private static async Task<IResult> Make(
        IFormCollection form,
        CalendarLinks links,
        PublicAddress address,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var made = await links.Make(IsTicked(form), cancel);
        if (made.Refusal is { } refusal)
        {
            return Pages.Refuse(refusal, Address, ShopPages.Address);
        }

        http.Response.Headers.CacheControl = "no-store";
        return Page(made.Value.Link, address.Of($"/calendar/{made.Value.Secret}.ics"));
    }

    private static async Task<IResult> ChooseNights(
        IFormCollection form,
        CalendarLinks links,
        CancellationToken cancel
    ) => Done(await links.ChooseNights(IsTicked(form), cancel));

    private static async Task<IResult> End(CalendarLinks links, CancellationToken cancel) =>
        Done(await links.End(cancel));

    private static bool IsTicked(IFormCollection form) => form.Text("nights").Length > 0;

    private static IResult Done(Result<CalendarLink> changed) =>
        changed.Refusal is { } refusal ? Pages.Refuse(refusal, Address, ShopPages.Address) : Pages.Go(Address);

    private static RazorComponentResult Page(CalendarLink? link, string? newLink) =>
        Pages.Show<CalendarPage>(new { Link = link, NewLink = newLink });
}

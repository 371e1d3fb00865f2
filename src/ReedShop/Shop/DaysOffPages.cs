using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>Typed days that are being looked at: what they would change, or why they cannot be taken.</summary>
public sealed record ThoughtDays(
    DaysWish Wish,
    IReadOnlyList<DayChange> Changes,
    IReadOnlyList<StandingSitting> Sittings,
    Refusal? Refusal
);

/// <summary>Concerts, holidays and extra mornings: days on which the bench keeps other hours than the week says.</summary>
public static class DaysOffPages
{
    public const string Address = "/bench/days-off";

    public static void MapDaysOffPages(this IEndpointRouteBuilder routes)
    {
        var days = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        days.MapGet("", Show);
        days.MapPost("", Keep);
        days.MapPost("remove", Remove);
        days.MapBusyFilePages();
    }

    /// <summary>Looking at typed days writes nothing, so it is a page like any other.</summary>
    private static async Task<IResult> Show(
        DaysOff days,
        [AsParameters] DaysWish wish,
        CancellationToken cancel,
        int? changed = null
    )
    {
        if (wish.First is null)
        {
            return await Page(days, null, null, changed, cancel);
        }

        return await Page(days, await Think(days, wish, null, cancel), null, null, cancel);
    }

    private static async Task<ThoughtDays> Think(
        DaysOff days,
        DaysWish wish,
        Refusal? refusal,
        CancellationToken cancel
    )
    {
        var look = await days.Look(wish, cancel);
        var changes = look.IsRefused ? [] : look.Value;
        var sittings = await days.Standing(changes.Select(change => change.Date), cancel);
        return new ThoughtDays(wish, changes, sittings, refusal ?? look.Refusal);
    }

    private static async Task<IResult> Keep(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        var wish = new DaysWish(
            form.Text("first"),
            form.Text("last"),
            form.Text("reason"),
            form.Text("open"),
            form.Text("hours"),
            form.Text("parcels")
        );
        var kept = await days.Keep(wish, form.SeenVersion(), cancel);
        return kept.Refusal is { } refusal
            ? await Page(days, await Think(days, wish, refusal, cancel), null, null, cancel)
            : Done(kept.Value);
    }

    private static async Task<IResult> Remove(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        if (Day(form, "first") is not { } first || Day(form, "last") is not { } last)
        {
            return Pages.Refuse(
                Refusal.Invalid("first", "Which days?", "dates such as 2027-03-03"),
                Address,
                ShopPages.Address
            );
        }

        var removed = await days.Remove(first, last, form.SeenVersion(), cancel);
        return removed.Refusal is { } refusal ? Pages.Refuse(refusal, Address, ShopPages.Address) : Done(removed.Value);
    }

    internal static IResult Done(DaysChanged changed) => Pages.Go($"{Address}?changed={Words.Plain(changed.Days)}");

    internal static async Task<IResult> Page(
        DaysOff days,
        ThoughtDays? typed,
        ThoughtFile? file,
        int? changed,
        CancellationToken cancel
    )
    {
        var read = await days.Read(cancel);
        return read.Refusal is { } noShop
            ? Pages.Refuse(noShop, "/", ShopPages.Address)
            : Pages.Show<DaysOffPage>(
                new
                {
                    View = read.Value,
                    Typed = typed,
                    File = file,
                    Changed = changed,
                },
                typed?.Refusal ?? file?.Refusal
            );
    }

    private static DateOnly? Day(IFormCollection form, string field) =>
        DateOnly.TryParseExact(
            form.Text(field),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : null;
}

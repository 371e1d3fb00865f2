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

/// <summary>A file that is being looked at.</summary>
/// <param name="Text">The file itself: it is sent along and read again when it is kept, so nothing lies about meanwhile.</param>
/// <param name="LeftOut">Keys of times without a tick.</param>
public sealed record ThoughtFile(
    string Text,
    BusyLook? Look,
    IReadOnlyList<StandingSitting> Sittings,
    IReadOnlySet<string> LeftOut,
    Refusal? Refusal
);

/// <summary>Concerts, holidays and extra mornings: days on which the bench keeps other hours than the week says.</summary>
public static class DaysOffPages
{
    public const string Address = "/bench/days-off";
    public const string FileField = "file";

    public static void MapDaysOffPages(this IEndpointRouteBuilder routes)
    {
        var days = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        days.MapGet("", Show);
        days.MapPost("", Keep);
        days.MapPost("remove", Remove);
        days.MapPost("file", LookAtFile);
        days.MapPost("file/keep", KeepFile);

        // What a file would change is an answer to a POST; whoever loads its address again comes to the page.
        days.MapGet("file", () => Pages.Go(Address));
        days.MapGet("file/keep", () => Pages.Go(Address));
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

    private static async Task<IResult> LookAtFile(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        if (form.Files is not [{ Length: > 0 } sent])
        {
            var none = Refusal.Invalid(FileField, "No file was chosen, or it is empty.", BusyFile.Allowed);
            return await Page(days, null, Refused(none), null, cancel);
        }

        await using var stream = sent.OpenReadStream();
        var text = await BusyFile.Text(stream, FileField, cancel);
        return text.Refusal is { } refusal
            ? await Page(days, null, Refused(refusal), null, cancel)
            : await LookAt(days, text.Value, new HashSet<string>(), null, cancel);
    }

    private static async Task<IResult> KeepFile(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        var text = form.Text("text");
        var seen = await days.Look(text, FileField, cancel);
        if (seen.Refusal is { } unreadable)
        {
            return await Page(days, null, Refused(unreadable), null, cancel);
        }

        var leftOut = LeftOut(form, seen.Value);
        var kept = await days.Keep(text, FileField, leftOut, form.SeenVersion(), cancel);
        return kept.Refusal is { } refusal
            ? await LookAt(days, text, leftOut, refusal, cancel)
            : Done(kept.Value.Changed);
    }

    /// <summary>A time is kept where it and the event it recurs from both have their tick.</summary>
    private static HashSet<string> LeftOut(IFormCollection form, BusyLook look)
    {
        var (times, series) = (form["time"].ToHashSet(), form["series"].ToHashSet());
        return
        [
            .. look
                .Taking.Select(taking => taking.Time)
                .GroupBy(time => time.Series)
                .SelectMany(same =>
                    same.Where(time => !times.Contains(time.Key) || (same.Count() > 1 && !series.Contains(same.Key)))
                )
                .Select(time => time.Key),
        ];
    }

    private static async Task<IResult> LookAt(
        DaysOff days,
        string text,
        IReadOnlySet<string> leftOut,
        Refusal? refusal,
        CancellationToken cancel
    )
    {
        var look = await days.Look(text, FileField, cancel);
        if (look.Refusal is { } unreadable)
        {
            return await Page(days, null, Refused(unreadable), null, cancel);
        }

        var dates = look.Value.Taking.SelectMany(taking => taking.Days).Select(day => day.Date);
        var sittings = await days.Standing(dates, cancel);
        return await Page(days, null, new ThoughtFile(text, look.Value, sittings, leftOut, refusal), null, cancel);
    }

    private static ThoughtFile Refused(Refusal refusal) => new("", null, [], new HashSet<string>(), refusal);

    private static IResult Done(DaysChanged changed) => Pages.Go($"{Address}?changed={Words.Number(changed.Days)}");

    private static async Task<IResult> Page(
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

using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

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

/// <summary>Calendar files on the page of days off.</summary>
public static class BusyFilePages
{
    public const string Field = "file";

    public static void MapBusyFilePages(this IEndpointRouteBuilder daysOff)
    {
        daysOff.MapPost("file", Look);
        daysOff.MapPost("file/keep", Keep);

        // What a file would change is an answer to a POST; whoever loads its address again comes to the page.
        daysOff.MapGet("file", () => Pages.Go(DaysOffPages.Address));
        daysOff.MapGet("file/keep", () => Pages.Go(DaysOffPages.Address));
    }

    private static async Task<IResult> Look(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        if (form.Files is not [{ Length: > 0 } sent])
        {
            var none = Refusal.Invalid(Field, "No file was chosen, or it is empty.", BusyFile.Allowed);
            return await DaysOffPages.Page(days, null, Refused(none), null, cancel);
        }

        await using var stream = sent.OpenReadStream();
        var text = await BusyFile.Text(stream, Field, cancel);
        return text.Refusal is { } refusal
            ? await DaysOffPages.Page(days, null, Refused(refusal), null, cancel)
            : await LookAt(days, text.Value, new HashSet<string>(), null, cancel);
    }

    private static async Task<IResult> Keep(IFormCollection form, DaysOff days, CancellationToken cancel)
    {
        var text = form.Text("text");
        var seen = await days.Look(text, Field, cancel);
        if (seen.Refusal is { } unreadable)
        {
            return await DaysOffPages.Page(days, null, Refused(unreadable), null, cancel);
        }

        var leftOut = LeftOut(form, seen.Value);
        var kept = await days.Keep(text, Field, leftOut, form.SeenVersion(), cancel);
        return kept.Refusal is { } refusal
            ? await LookAt(days, text, leftOut, refusal, cancel)
            : DaysOffPages.Done(kept.Value.Changed);
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
        var look = await days.Look(text, Field, cancel);
        if (look.Refusal is { } unreadable)
        {
            return await DaysOffPages.Page(days, null, Refused(unreadable), null, cancel);
        }

        var dates = look.Value.Taking.SelectMany(taking => taking.Days).Select(day => day.Date);
        var sittings = await days.Standing(dates, cancel);
        return await DaysOffPages.Page(
            days,
            null,
            new ThoughtFile(text, look.Value, sittings, leftOut, refusal),
            null,
            cancel
        );
    }

    private static ThoughtFile Refused(Refusal refusal) => new("", null, [], new HashSet<string>(), refusal);
}

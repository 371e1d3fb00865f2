using System.Globalization;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.WebUtilities;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>A move the maker thinks about: which sitting, to which day, and what would follow.</summary>
/// <param name="Preview">Missing until a day is chosen, and when that day was refused.</param>
/// <param name="FactsVersion">What the preview was made from: keeping it is refused when something has changed since.</param>
public sealed record ThoughtMove(
    string SittingId,
    DateOnly? To,
    MoveView? Preview,
    Refusal? Refusal,
    long FactsVersion
);

public static class WeekPages
{
    public const string Address = "/bench/week";

    public static void MapWeekPages(this IEndpointRouteBuilder routes)
    {
        var week = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        week.MapGet("", Show);
        week.MapPost("move", Keep);
        week.MapPost("release", Release);
        week.MapPost("undo", TakeBack);
    }

    public static string Of(DateOnly from) => $"{Address}?from={Words.Iso(from)}";

    /// <summary>
    /// A preview writes nothing, so it is a page like any other. The week is read before it, because the preview tries
    /// the move on the rows this request holds.
    /// </summary>
    private static async Task<IResult> Show(
        WeekReader reader,
        Furnishing furnishing,
        SittingMoves moves,
        PlanStore plan,
        CancellationToken cancel,
        DateOnly? from = null,
        string? move = null,
        DateOnly? to = null,
        string? moved = null
    )
    {
        var version = await plan.FactsVersion(cancel);
        var week = await reader.Read(from, cancel);
        var thought = move is null ? null : await Think(moves, move, to, version, cancel);
        return Page(week, thought, await furnishing.IsDone(cancel), LastMove.Read(moved));
    }

    private static async Task<ThoughtMove> Think(
        SittingMoves moves,
        string sitting,
        DateOnly? to,
        long version,
        CancellationToken cancel
    )
    {
        if (to is not { } day)
        {
            return new ThoughtMove(sitting, null, null, null, version);
        }

        var preview = await moves.Preview(sitting, day, cancel);
        return preview.Refusal is { } refusal
            ? new ThoughtMove(sitting, to, null, refusal, version)
            : new ThoughtMove(sitting, to, preview.Value, null, version);
    }

    private static async Task<IResult> Keep(
        IFormCollection form,
        WeekReader reader,
        Furnishing furnishing,
        SittingMoves moves,
        PlanStore plan,
        CancellationToken cancel
    )
    {
        var sitting = form.Text("move");
        var from = ReadDay(form.Text("from"));
        if (ReadDay(form.Text("to")) is not { } to)
        {
            return Page(await reader.Read(from, cancel), null, await furnishing.IsDone(cancel));
        }

        var kept = await moves.Keep(sitting, to, version => Unchanged(version, form.Text("version")), cancel);
        return kept.Refusal is { } refusal
            ? Page(
                await reader.Read(from, cancel),
                new ThoughtMove(sitting, to, null, refusal, await plan.FactsVersion(cancel)),
                await furnishing.IsDone(cancel)
            )
            : Pages.Go(Moved(from, sitting, kept.Value));
    }

    /// <summary>The day was the maker's; now the plan chooses it.</summary>
    private static async Task<IResult> Release(IFormCollection form, SittingMoves moves, CancellationToken cancel)
    {
        var (sitting, from) = (form.Text("move"), ReadDay(form.Text("from")));
        var kept = await moves.Release(sitting, version => Unchanged(version, form.Text("version")), cancel);
        return kept.Refusal is { } refusal
            ? Pages.Refuse(refusal, Week(from), Address)
            : Pages.Go(Moved(from, sitting, kept.Value));
    }

    private static async Task<IResult> TakeBack(IFormCollection form, SittingMoves moves, CancellationToken cancel)
    {
        var from = ReadDay(form.Text("from"));
        var back = LastMove.Read(form.Text("moved")) is { } last
            ? await moves.TakeBack(last, cancel)
            : Refusal.Missing("such move to take back");
        return back.Refusal is { } refusal ? Pages.Refuse(refusal, Week(from), Address) : Pages.Go(Week(from));
    }

    private static string Week(DateOnly? from) => from is { } day ? Of(day) : Address;

    private static string Moved(DateOnly? from, string sitting, MoveView moved) =>
        QueryHelpers.AddQueryString(Week(from), "moved", LastMove.Of(sitting, moved).ToString());

    private static Refusal? Unchanged(long version, string seen) =>
        version.ToString(CultureInfo.InvariantCulture) == seen
            ? null
            : new Refusal(
                RefusalKind.ChangedMeanwhile,
                "Something at the bench changed since the preview.",
                "to",
                "another look at what follows, then keeping it"
            );

    private static DateOnly? ReadDay(string text) =>
        DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day
            : null;

    private static RazorComponentResult Page(
        Result<WeekView> week,
        ThoughtMove? thought,
        bool isFurnished,
        LastMove? moved = null
    ) =>
        week.Refusal is { } refusal
            ? Pages.Refuse(refusal, "/", Address)
            : Pages.Show<WeekPage>(
                new
                {
                    Week = week.Value,
                    Thought = thought,
                    IsFurnished = isFurnished,
                    Moved = moved,
                },
                thought?.Refusal
            );
}

using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>Batches, their stories, and the forms of the bench: those of today's page are posted here too.</summary>
public static class BatchPages
{
    public const string Address = "/bench/batches";
    public const string TodayAddress = "/bench/today";

    /// <summary>Values of the field `back`: which page a form was on.</summary>
    public const string BackToToday = "today";

    public const string BackToBatch = "batch";

    public static void MapBatchPages(this IEndpointRouteBuilder routes)
    {
        var bench = routes.MapGroup("").RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        bench.MapGet(TodayAddress, Today);
        bench.MapGet(Address, List);
        bench.MapPost(Address, Start);
        var batch = bench.MapGroup(Address + "/{id}");
        batch.MapGet("", Show);
        batch.MapPost("steps/{n:int}", Record);
        batch.MapPost("grades", Grade);
        batch.MapPost("undo", Undo);
        batch.MapPost("nights", NoteNight);
        batch.MapPost("split", Split);
        batch.MapPost("merge", Merge);
    }

    /// <summary>Whether tonight dries the blanks is asked by GET: the answer writes nothing.</summary>
    private static Task<IResult> Today(
        BenchPages pages,
        [AsParameters] DryingQuestion drying,
        CancellationToken cancel,
        DateOnly? date = null
    ) => pages.Today(date, drying, null, cancel);

    private static Task<IResult> List(BenchPages pages, CancellationToken cancel, int? after = null) =>
        pages.List(after, null, null, cancel);

    private static Task<IResult> Show(string id, BenchPages pages, CancellationToken cancel) =>
        pages.Batch(id, null, cancel);

    private static async Task<IResult> Start(
        IFormCollection form,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        var wish = BenchForms.ReadStart(form);
        var started = wish.Refusal is { } fault ? fault : await batches.Start(wish.Value, cancel);
        return started.Refusal is { } refusal
            ? await pages.List(null, form, refusal, cancel)
            : Pages.Go($"{Address}/{started.Value.Id}");
    }

    private static async Task<IResult> Record(
        string id,
        int n,
        IFormCollection form,
        BatchStore store,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        var counts = BenchForms.ReadCounts(form, (await store.Find(id, cancel))?.Blanks ?? 0);
        var recorded = counts.Refusal is { } fault
            ? fault
            : await batches.Record(id, n, counts.Value, VersionChecks.None, cancel);
        return await pages.After(id, "record", form, recorded.Refusal, cancel);
    }

    private static async Task<IResult> Grade(
        string id,
        IFormCollection form,
        BatchStore store,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        if (await store.Find(id, cancel) is not { Aim: { } aim })
        {
            return Pages.Refuse(Refusal.Missing("such batch with an aim"), Address, Address);
        }

        var grades = BenchForms.ReadGrades(form, aim);
        var graded = grades.Refusal is { } fault
            ? fault
            : await batches.Grade(id, grades.Value, VersionChecks.None, cancel);
        var name = form.Text("final") == "yes" ? "grades" : "provisional";
        return await pages.After(id, name, form, graded.Refusal, cancel);
    }

    private static async Task<IResult> Undo(
        string id,
        IFormCollection form,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    ) => await pages.After(id, "undo", form, (await batches.Undo(id, VersionChecks.None, cancel)).Refusal, cancel);

    private static async Task<IResult> NoteNight(
        string id,
        IFormCollection form,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        var isDay = DateOnly.TryParseExact(
            form.Text("date"),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var night
        );
        var refusal = isDay
            ? (await batches.NoteNight(id, new NightWish(night, true), VersionChecks.None, cancel)).Refusal
            : Refusal.Invalid("date", "Which night was it?", "a date such as 2027-03-01");
        return await pages.After(id, "nights", form, refusal, cancel);
    }

    private static async Task<IResult> Merge(
        string id,
        IFormCollection form,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        var trays = new TraysToMerge([.. form["tray"].OfType<string>()]);
        var refusal = (await batches.Merge(id, trays, VersionChecks.None, cancel)).Refusal;
        return await pages.After(id, "merge", form, refusal, cancel);
    }

    private static async Task<IResult> Split(
        string id,
        IFormCollection form,
        BatchCommands batches,
        BenchPages pages,
        CancellationToken cancel
    )
    {
        var sizes = BenchForms.ReadTrays(form);
        var refusal = sizes.Refusal ?? (await batches.Split(id, sizes.Value, VersionChecks.None, cancel)).Refusal;
        return await pages.After(id, "split", form, refusal, cancel);
    }
}

using Microsoft.AspNetCore.Mvc;
using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>What became of an upload on the page: which file it was, and its report or why it was not read.</summary>
public sealed record HistoryUpload(string Kind, ImportReport? Report, Refusal? Refusal);

/// <summary>Brings past batches in from files, so that yields need not start from nothing.</summary>
public static class HistoryPages
{
    public const string Address = "/bench/history";
    public const string StepsFile = "steps";
    public const string GradesFile = "grades";

    public static void MapHistoryPages(this IEndpointRouteBuilder routes)
    {
        var history = routes.MapGroup(Address).RequireAuthorization(Access.OwnerCookie).ExcludeFromDescription();
        history.MapGet("", Show);
        history.MapPost(StepsFile, Steps).WithMetadata(new RequestSizeLimitAttribute(HistoryApi.MostBytes));
        history.MapPost(GradesFile, Grades).WithMetadata(new RequestSizeLimitAttribute(HistoryApi.MostBytes));

        // A report is an answer to a POST; whoever loads its address again comes to the page.
        history.MapGet(StepsFile, () => Pages.Go(Address));
        history.MapGet(GradesFile, () => Pages.Go(Address));
    }

    private static Task<IResult> Show(PastStore past, CatalogueStore catalogue, CancellationToken cancel) =>
        Page(past, catalogue, null, cancel);

    private static async Task<IResult> Steps(
        IFormCollection form,
        HistoryImport import,
        PastStore past,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var taken = await Take(form, text => import.ImportSteps(text, strict: false, cancel));
        return await Page(past, catalogue, Upload(StepsFile, taken), cancel);
    }

    private static async Task<IResult> Grades(
        IFormCollection form,
        HistoryImport import,
        PastStore past,
        CatalogueStore catalogue,
        CancellationToken cancel
    )
    {
        var taken = await Take(form, text => import.ImportGrades(text, strict: false, cancel));
        return await Page(past, catalogue, Upload(GradesFile, taken), cancel);
    }

    private static async Task<Result<ImportReport>> Take(
        IFormCollection form,
        Func<TextReader, Task<Result<ImportReport>>> import
    )
    {
        if (form.Files is not [{ Length: > 0 } file])
        {
            return Refusal.Invalid("file", "No file was chosen, or it is empty.", "one CSV file");
        }

        using var text = HistoryApi.Open(file.OpenReadStream());
        return await import(text);
    }

    internal static HistoryUpload Upload(string kind, Result<ImportReport> taken) =>
        taken.Refusal is { } refusal
            ? new HistoryUpload(kind, null, refusal)
            : new HistoryUpload(kind, taken.Value, null);

    private static async Task<IResult> Page(
        PastStore past,
        CatalogueStore catalogue,
        HistoryUpload? upload,
        CancellationToken cancel
    ) =>
        Pages.Show<HistoryPage>(
            new
            {
                Batches = await past.BatchCount(cancel),
                Models = await catalogue.All(cancel),
                Upload = upload,
            },
            upload?.Refusal
        );
}

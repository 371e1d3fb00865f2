using System.Text;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc;
using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class HistoryApi
{
    /// <summary>Some 250,000 rows: more than a workshop of one fills in a lifetime.</summary>
    internal const long MostBytes = 16 * 1024 * 1024;

    public static void MapHistoryApi(this IEndpointRouteBuilder routes)
    {
        var history = routes.MapGroup("/api/history").WithTags("Workshop").RequireAuthorization(Access.OwnerToken);
        Csv(history.MapPost("steps", Steps), HistoryColumns.Steps).WithSummary("Imports the steps of past batches.");
        Csv(history.MapPost("grades", Grades), HistoryColumns.Grades)
            .WithSummary("Imports the grades of past batches.");
    }

    private static RouteHandlerBuilder Csv(RouteHandlerBuilder endpoint, HistoryColumns columns) =>
        endpoint
            .Accepts<string>("text/csv", "multipart/form-data")
            .WithMetadata(new RequestSizeLimitAttribute(MostBytes))
            .WithDescription(
                $"A CSV file in UTF-8: {columns.Allowed}. Good rows are taken and bad ones come back with line and "
                    + "reason; with strict=true one bad row refuses the file, and the problem document holds the report. "
                    + "The same rows again change nothing."
            );

    private static Task<Results<Ok<ImportReport>, Refused>> Steps(
        HttpRequest request,
        HistoryImport import,
        CancellationToken cancel,
        bool strict = false
    ) => Import(request, text => import.ImportSteps(text, strict, cancel), cancel);

    private static Task<Results<Ok<ImportReport>, Refused>> Grades(
        HttpRequest request,
        HistoryImport import,
        CancellationToken cancel,
        bool strict = false
    ) => Import(request, text => import.ImportGrades(text, strict, cancel), cancel);

    private static async Task<Results<Ok<ImportReport>, Refused>> Import(
        HttpRequest request,
        Func<TextReader, Task<Result<ImportReport>>> import,
        CancellationToken cancel
    )
    {
        var file = await File(request, cancel);
        if (file.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        using var text = Open(file.Value);
        return (await import(text)).OkOrRefused();
    }

    /// <summary>Bytes that are no UTF-8 become U+FFFD, by which their line is told later.</summary>
    internal static StreamReader Open(Stream file) => new(file, Encoding.UTF8, detectEncodingFromByteOrderMarks: false);

    private static async Task<Result<Stream>> File(HttpRequest request, CancellationToken cancel)
    {
        if (!request.HasFormContentType)
        {
            return request.Body;
        }

        try
        {
            var form = await request.ReadFormAsync(cancel);
            return form.Files is [var only]
                ? only.OpenReadStream()
                : Refusal.Invalid("file", $"The form holds {form.Files.Count} files.", "one CSV file");
        }
        catch (InvalidDataException)
        {
            return new Refusal(RefusalKind.Unreadable, "The form could not be read.", "file", "one CSV file");
        }
    }
}

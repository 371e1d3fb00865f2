using Microsoft.AspNetCore.Http.HttpResults;
using ReedShop.Platform.Http;

namespace ReedShop.Workshop;

public static class BatchApi
{
    public static void MapBatches(this IEndpointRouteBuilder routes)
    {
        var batches = routes.MapGroup("/api/batches").WithTags("Workshop").RequireAuthorization(Access.OwnerToken);
        batches.MapGet("", List).WithSummary("Batches and trays, newest first.");
        batches.MapPost("", Start).WithSummary("Starts a batch for the drawer (with an aim) or for the shelf.");
        batches.MapGet("{id}", Read).WithSummary("A batch with its whole story.");
        batches.MapPost("{id}/steps/{n:int}/record", Record).WithSummary("Records the next step, counted from 1.");
        batches.MapPost("{id}/steps/{n:int}/correct", Correct).WithSummary("Mends the counts of a recorded step.");
        batches.MapPost("{id}/undo", Undo).WithSummary("Takes the last recorded step back.");
        batches
            .MapPost("{id}/nights", Night)
            .WithSummary("Notes a night that left the blanks damp: one more is planned.");
        batches.MapPost("{id}/grades", Grade).WithSummary("Sorts finished reeds into strengths.");
        batches.MapPost("{id}/split", Split).WithSummary("Divides a batch into trays.");
        batches.MapPost("{id}/merge", Merge).WithSummary("Joins trays of the same batch that stand at the same step.");
    }

    private static async Task<Ok<ListPage<BatchView>>> List(
        BatchReader reader,
        CancellationToken cancel,
        int limit = Paging.UsualLimit,
        int? after = null
    ) => TypedResults.Ok(await reader.Page(Paging.Bounded(limit), after, cancel));

    private static async Task<Results<Ok<BatchStory>, Refused>> Read(
        string id,
        BatchReader reader,
        HttpContext http,
        CancellationToken cancel
    )
    {
        var found = await reader.Story(id, cancel);
        if (found.Refusal is { } refusal)
        {
            return (Refused)refusal;
        }

        http.SetVersion(found.Value.Version);
        return TypedResults.Ok(found.Value.Story);
    }

    private static async Task<Results<Created<BatchView>, Refused>> Start(
        BatchWish wish,
        BatchCommands batches,
        CancellationToken cancel
    ) => (await batches.Start(wish, cancel)).CreatedOrRefused(batch => $"/api/batches/{batch.Id}");

    private static async Task<Results<Ok<RecordedView>, Refused>> Record(
        string id,
        int n,
        StepCounts counts,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Record(id, n, counts, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<RecordedView>, Refused>> Correct(
        string id,
        int n,
        StepCounts counts,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Correct(id, n, counts, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<BatchView>, Refused>> Undo(
        string id,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Undo(id, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<BatchView>, Refused>> Night(
        string id,
        NightWish night,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.NoteNight(id, night, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<GradesView>, Refused>> Grade(
        string id,
        GradeCounts counts,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Grade(id, counts, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<IReadOnlyList<BatchView>>, Refused>> Split(
        string id,
        TraySizes sizes,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Split(id, sizes, http.HonourVersion, cancel)).OkOrRefused();

    private static async Task<Results<Ok<BatchView>, Refused>> Merge(
        string id,
        TraysToMerge trays,
        BatchCommands batches,
        HttpContext http,
        CancellationToken cancel
    ) => (await batches.Merge(id, trays, http.HonourVersion, cancel)).OkOrRefused();
}

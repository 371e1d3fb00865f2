using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Reminders;

/// <summary>
/// Leads from a letter to the form of a step. It is an address of its own, because what stands behind a # is lost on the
/// way through the sign-in page, and because by the next morning the step may stand elsewhere. It changes nothing.
/// </summary>
public static class RecordLinks
{
    public const string Address = "/bench/record";

    private const string Today = "/bench/today";

    public static void MapRecordLinks(this IEndpointRouteBuilder routes) =>
        routes
            .MapGet(Address + "/{batch}/{step}", Lead)
            .RequireAuthorization(Access.OwnerCookie)
            .ExcludeFromDescription();

    public static string AddressOf(Batch batch) => $"{Address}/{batch.Number}/{Words.Plain(batch.NextStep)}";

    private static async Task<IResult> Lead(string batch, string step, FactsReader reader, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        return Pages.Go(read.IsRefused ? Today : Of(read.Value, batch, step));
    }

    private static string Of(BenchFacts facts, string number, string step) =>
        facts.OpenBatches.FirstOrDefault(batch => batch.Number == number) is not { } open ? Today
        : Words.Plain(open.NextStep) == step && facts.Sittings.Any(s => s.BatchId == open.Id && s.Day == facts.Today)
            ? $"{Today}#step-{open.Number}-{step}"
        : $"/bench/batches/{open.Id}";
}

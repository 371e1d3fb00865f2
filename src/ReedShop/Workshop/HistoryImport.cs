using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>What became of a file.</summary>
/// <param name="Taken">Rows stored now.</param>
/// <param name="Already">Rows that were stored before.</param>
/// <param name="Bad">Rows that cannot be used, by line: the first of them, where there are very many.</param>
/// <param name="BadCount">All rows that cannot be used.</param>
public sealed record ImportReport(int Taken, int Already, IReadOnlyList<BadRow> Bad, int BadCount);

/// <summary>
/// Takes past batches from files, so that yields need not start from nothing. A file is taken in one transaction; the
/// same file again changes nothing.
/// </summary>
public sealed class HistoryImport(FactsGate gate, ShopStore shops, CatalogueStore catalogue, ShopClock clock)
{
    /// <param name="strict">All or nothing: one bad row, and no row is taken.</param>
    public async Task<Result<ImportReport>> ImportSteps(TextReader text, bool strict, CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return FactsReader.NoShopYet;
        }

        var models = await catalogue.All(cancel);
        var read = await HistoryRows.Steps(text, models, clock.Today(shop.Zone));
        return await Take(read, strict, (stored, rows, stop) => stored.Changes(rows, stop), cancel);
    }

    /// <param name="strict">All or nothing: one bad row, and no row is taken.</param>
    public async Task<Result<ImportReport>> ImportGrades(TextReader text, bool strict, CancellationToken cancel)
    {
        var models = await catalogue.All(cancel);
        var read = await HistoryRows.Grades(text);
        return await Take(read, strict, (stored, rows, stop) => stored.Changes(rows, models, stop), cancel);
    }

    private async Task<Result<ImportReport>> Take<T>(
        Result<HistoryRows<T>> read,
        bool strict,
        Func<HistoryStored, IReadOnlyList<HistoryRow<T>>, CancellationToken, Task<HistoryChanges<T>>> compare,
        CancellationToken cancel
    )
        where T : class
    {
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var rows = read.Value;
        return await gate.Change(
            async (services, stop) =>
            {
                var past = services.GetRequiredService<PastStore>();
                var changes = await compare(new HistoryStored(past), rows.Good, stop);
                var report = Report(rows, changes);
                if (strict && report.BadCount > 0)
                {
                    return NothingTaken(report);
                }

                if (changes.Fresh.Count > 0)
                {
                    var journal = services.GetRequiredService<JournalStore>();
                    journal.Write("owner", "history", $"{changes.Fresh.Count} rows of past batches taken");
                    await past.Add(changes.Fresh, stop);
                }

                return (Result<ImportReport>)report;
            },
            cancel
        );
    }

    private static ImportReport Report<T>(HistoryRows<T> rows, HistoryChanges<T> changes) =>
        new(
            changes.Fresh.Count,
            changes.Already,
            [.. rows.Bad.First.Concat(changes.Bad.First).OrderBy(row => row.Line).Take(BadRows.MostKept)],
            rows.Bad.Count + changes.Bad.Count
        );

    private static Refusal NothingTaken(ImportReport report) =>
        Refusal.Invalid(
            "file",
            $"{report.BadCount} rows cannot be used, so none was taken.",
            "a file of good rows, or the same file without strict"
        ) with
        {
            Extra = ("report", report with { Taken = 0 }),
        };
}

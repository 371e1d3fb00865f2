using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>A batch the owner starts without an order: for the drawer with an aim, for the shelf without one.</summary>
public sealed record BatchWish(
    string Model,
    int Blanks,
    Strength? Aim = null,
    string? CaneLot = null,
    bool FromShelf = false
);

/// <summary>A night that left the blanks damp.</summary>
public sealed record NightWish(DateOnly Date, bool Damp);

/// <summary>What the maker may do with a batch, for pages and scripts alike.</summary>
public sealed class BatchCommands(Bench bench)
{
    public Task<Result<BatchView>> Start(BatchWish wish, CancellationToken cancel) =>
        bench.Change(
            (services, facts, _) =>
                Task.FromResult(
                    services
                        .GetRequiredService<StartingBatches>()
                        .Start(facts, wish)
                        .Then<BatchView>(batch => View(facts, batch))
                ),
            cancel
        );

    public Task<Result<RecordedView>> Record(
        string id,
        int step,
        StepCounts counts,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        Change(
            id,
            check,
            async (services, facts, batch, stop) =>
                Recorded(
                    facts,
                    batch,
                    await services.GetRequiredService<Recording>().Record(facts, batch, step, counts, stop)
                ),
            cancel
        );

    public Task<Result<RecordedView>> Correct(
        string id,
        int step,
        StepCounts counts,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        Change(
            id,
            check,
            async (services, facts, batch, stop) =>
                Recorded(
                    facts,
                    batch,
                    await services.GetRequiredService<Corrections>().Correct(facts, batch, step, counts, stop)
                ),
            cancel
        );

    public Task<Result<BatchView>> Undo(string id, VersionCheck check, CancellationToken cancel) =>
        Change(
            id,
            check,
            async (services, facts, batch, stop) =>
                Viewed(facts, await services.GetRequiredService<Corrections>().Undo(facts, batch, stop)),
            cancel
        );

    public Task<Result<BatchView>> NoteNight(
        string id,
        NightWish night,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        Change(
            id,
            check,
            async (services, facts, batch, stop) =>
                Viewed(facts, await services.GetRequiredService<DampNights>().Note(facts, batch, night, stop)),
            cancel
        );

    public Task<Result<GradesView>> Grade(
        string id,
        GradeCounts counts,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        Change(
            id,
            check,
            async (services, facts, batch, stop) =>
                (await services.GetRequiredService<Grading>().Grade(facts, batch, counts, stop)).Then<GradesView>(
                    record => new GradesView(record.Day, record.Final, record.Grades)
                ),
            cancel
        );

    public Task<Result<IReadOnlyList<BatchView>>> Split(
        string id,
        TraySizes sizes,
        VersionCheck check,
        CancellationToken cancel
    ) =>
        Change(
            id,
            check,
            (services, facts, batch, _) =>
                Task.FromResult(
                    services
                        .GetRequiredService<Trays>()
                        .Split(facts, batch, sizes)
                        .Then<IReadOnlyList<BatchView>>(trays => trays.Select(tray => View(facts, tray)).ToArray())
                ),
            cancel
        );

    public Task<Result<BatchView>> Merge(string id, TraysToMerge trays, VersionCheck check, CancellationToken cancel) =>
        Change(
            id,
            check,
            (services, facts, batch, _) =>
                Task.FromResult(Viewed(facts, services.GetRequiredService<Trays>().Merge(facts, batch, trays))),
            cancel
        );

    private Task<Result<T>> Change<T>(
        string id,
        VersionCheck check,
        Func<IServiceProvider, BenchFacts, Batch, CancellationToken, Task<Result<T>>> work,
        CancellationToken cancel
    ) =>
        bench.Change(
            async (services, facts, stop) =>
                await services.GetRequiredService<BatchStore>().Find(id, stop) is not { } batch
                    ? Refusal.Missing("such batch")
                : check(batch.Version) is { } fault ? fault
                : await work(services, facts, batch, stop),
            cancel
        );

    private static BatchView View(BenchFacts facts, Batch batch) =>
        BatchView.Of(batch, facts.Models.GetValueOrDefault(batch.Model));

    private static Result<BatchView> Viewed(BenchFacts facts, Result<Batch> batch) =>
        batch.Then<BatchView>(found => View(facts, found));

    private static Result<RecordedView> Recorded(BenchFacts facts, Batch batch, Result<StepRecord> record) =>
        record.Then<RecordedView>(done => new RecordedView(
            View(facts, facts.Batches.Find(tray => tray.Id == done.BatchId) ?? batch),
            StepRecordView.Of(done, facts.Models[batch.Model]),
            [.. facts.Batches.Where(tray => done.Trays.Contains(tray.Id)).Select(tray => View(facts, tray))]
        ));
}

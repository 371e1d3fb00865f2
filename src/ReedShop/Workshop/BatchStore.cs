using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

public sealed class BatchStore(ShopDb db)
{
    private static readonly BatchStage[] OpenStages = [BatchStage.Planned, BatchStage.OnBench];

    public Task<List<Batch>> Open(CancellationToken cancel) =>
        db.Set<Batch>()
            .Where(batch => OpenStages.Contains(batch.Stage))
            .OrderBy(batch => batch.Run)
            .ThenBy(batch => batch.Number)
            .ToListAsync(cancel);

    public Task<Batch?> Find(string id, CancellationToken cancel) =>
        db.Set<Batch>().SingleOrDefaultAsync(batch => batch.Id == id, cancel);

    public Task<bool> HasAny(string model, CancellationToken cancel) =>
        db.Set<Batch>().AnyAsync(batch => batch.Model == model, cancel);

    public Task<List<Batch>> OfRoot(string root, CancellationToken cancel) =>
        db.Set<Batch>().Where(batch => batch.Root == root).OrderBy(batch => batch.Number).ToListAsync(cancel);

    /// <summary>Newest first, a page at a time: batches with a run below <paramref name="after"/>.</summary>
    public Task<List<Batch>> Page(int? after, int limit, CancellationToken cancel) =>
        db.Set<Batch>()
            .AsNoTracking()
            .Where(batch => after == null || batch.Run < after)
            .OrderByDescending(batch => batch.Run)
            .ThenBy(batch => batch.Number)
            .Take(limit)
            .ToListAsync(cancel);

    /// <summary>Of all batches and trays, newest first, what they can be found by.</summary>
    public Task<List<BatchName>> Names(CancellationToken cancel) =>
        db.Set<Batch>()
            .OrderByDescending(batch => batch.Run)
            .ThenBy(batch => batch.Number)
            .Select(batch => new BatchName(
                batch.Id,
                batch.Run,
                batch.Number,
                batch.Model,
                batch.Aim,
                batch.CaneLot,
                batch.Stage,
                batch.Blanks
            ))
            .ToListAsync(cancel);

    /// <summary>Blanks started from cane since a day, by model.</summary>
    public Task<Dictionary<string, int>> StartedFromCaneSince(DateOnly day, CancellationToken cancel) =>
        db.Set<Batch>()
            .Where(batch => batch.Id == batch.Root && batch.FirstStep == 1 && batch.PlannedOn >= day)
            .Where(batch => batch.Stage != BatchStage.CalledOff)
            .GroupBy(batch => batch.Model)
            .ToDictionaryAsync(started => started.Key, started => started.Sum(batch => batch.Started), cancel);

    public async Task<int> LastRun(CancellationToken cancel) =>
        await db.Set<Batch>().MaxAsync(batch => (int?)batch.Run, cancel) ?? 0;

    /// <summary>Trays split off each run with an open batch.</summary>
    public async Task<Dictionary<int, int>> TraysOfRun(CancellationToken cancel)
    {
        var open = db.Set<Batch>().Where(batch => OpenStages.Contains(batch.Stage)).Select(batch => batch.Run);
        return await db.Set<Batch>()
            .Where(batch => open.Contains(batch.Run) && batch.Id != batch.Root)
            .GroupBy(batch => batch.Run)
            .ToDictionaryAsync(trays => trays.Key, trays => trays.Count(), cancel);
    }

    /// <summary>Records of one batch, oldest first.</summary>
    public Task<List<StepRecord>> Records(string batchId, CancellationToken cancel) =>
        db.Set<StepRecord>().Where(r => r.BatchId == batchId).OrderBy(record => record.Id).ToListAsync(cancel);

    /// <summary>Records of a batch and all its trays, oldest first.</summary>
    public Task<List<StepRecord>> RecordsOfRoot(string root, CancellationToken cancel) =>
        db.Set<StepRecord>().AsNoTracking().Where(r => r.Root == root).OrderBy(r => r.Id).ToListAsync(cancel);

    /// <summary>Grades of a batch and all its trays, oldest first.</summary>
    public Task<List<GradeRecord>> GradesOfRoot(string root, CancellationToken cancel) =>
        db.Set<GradeRecord>().AsNoTracking().Where(g => g.Root == root).OrderBy(g => g.Id).ToListAsync(cancel);

    public Task<List<StepRecord>> AllRecords(CancellationToken cancel) =>
        db.Set<StepRecord>().AsNoTracking().OrderBy(record => record.Id).ToListAsync(cancel);

    /// <summary>Changes whenever a record is added, mended or taken back.</summary>
    public async Task<(int Count, long Last, long Mark)> RecordsMark(CancellationToken cancel) =>
        await db.Set<StepRecord>()
            .GroupBy(_ => 1)
            .Select(all => new ValueTuple<int, long, long>(
                all.Count(),
                all.Max(record => record.Id),
                all.Sum(record => record.Passed * record.Id)
            ))
            .SingleOrDefaultAsync(cancel);

    public Task<int> FinalGradeCount(CancellationToken cancel) =>
        db.Set<GradeRecord>().CountAsync(grade => grade.Final, cancel);

    public Task<List<StepRecord>> RecordsOn(DateOnly day, CancellationToken cancel) =>
        db.Set<StepRecord>().AsNoTracking().Where(record => record.Day == day).ToListAsync(cancel);

    /// <summary>The models of batches, by batch.</summary>
    public Task<Dictionary<string, string>> ModelsOf(IReadOnlyList<string> batchIds, CancellationToken cancel) =>
        db.Set<Batch>()
            .Where(batch => batchIds.Contains(batch.Id))
            .ToDictionaryAsync(batch => batch.Id, batch => batch.Model, cancel);

    public Task<List<GradeRecord>> Grades(string batchId, CancellationToken cancel) =>
        db.Set<GradeRecord>().Where(grade => grade.BatchId == batchId).OrderBy(grade => grade.Id).ToListAsync(cancel);

    public Task<List<GradeRecord>> FinalGrades(CancellationToken cancel) =>
        db.Set<GradeRecord>().AsNoTracking().Where(grade => grade.Final).ToListAsync(cancel);

    public Task<List<Batch>> Roots(CancellationToken cancel) =>
        db.Set<Batch>().AsNoTracking().Where(batch => batch.Id == batch.Root).ToListAsync(cancel);

    /// <summary>Blanks that batches with open trays were started with; a root may be closed when its trays are not.</summary>
    public Task<Dictionary<string, int>> StartedByRoot(CancellationToken cancel) =>
        db.Set<Batch>()
            .Where(root =>
                db.Set<Batch>()
                    .Any(tray =>
                        tray.Root == root.Id && (tray.Stage == BatchStage.Planned || tray.Stage == BatchStage.OnBench)
                    )
            )
            .ToDictionaryAsync(root => root.Id, root => root.Started, cancel);

    public Task<bool> HasDampNight(string batchId, DateOnly date, CancellationToken cancel) =>
        db.Set<DampNight>().AnyAsync(night => night.BatchId == batchId && night.Date == date, cancel);

    public void Add(Batch batch) => db.Add(batch);

    public void Remove(Batch batch) => db.Remove(batch);

    public void Add(StepRecord record) => db.Add(record);

    public void Remove(StepRecord record) => db.Remove(record);

    public void Add(GradeRecord grade) => db.Add(grade);

    /// <summary>Damp nights noted from a day on, so that they can be noted again.</summary>
    public Task<List<DampNight>> DampNightsFrom(string batchId, DateOnly day, CancellationToken cancel) =>
        db.Set<DampNight>().Where(night => night.BatchId == batchId && night.Date >= day).ToListAsync(cancel);

    public Task<List<DampNight>> DampNights(CancellationToken cancel) =>
        db.Set<DampNight>().AsNoTracking().ToListAsync(cancel);

    public Task<List<DampNight>> DampNightsOf(IReadOnlyCollection<string> batchIds, CancellationToken cancel) =>
        db.Set<DampNight>().AsNoTracking().Where(night => batchIds.Contains(night.BatchId)).ToListAsync(cancel);

    public Task<int> DampNightCount(CancellationToken cancel) => db.Set<DampNight>().CountAsync(cancel);

    public void Remove(DampNight night) => db.Remove(night);

    public void Add(DampNight night) => db.Add(night);
}

internal sealed class BatchMapping
    : IEntityTypeConfiguration<Batch>,
        IEntityTypeConfiguration<StepRecord>,
        IEntityTypeConfiguration<DampNight>,
        IEntityTypeConfiguration<GradeRecord>
{
    public void Configure(EntityTypeBuilder<Batch> builder)
    {
        builder.ToTable("batches");
        builder.HasIndex(batch => batch.Stage);
        builder.HasIndex(batch => batch.Root);
        builder.HasIndex(batch => batch.Number).IsUnique();
        builder.Property(batch => batch.Version).IsConcurrencyToken();
        builder.Ignore(batch => batch.IsOpen);
    }

    public void Configure(EntityTypeBuilder<StepRecord> builder)
    {
        builder.ToTable("step_records");
        builder.HasIndex(record => new { record.BatchId, record.Step }).IsUnique();
        builder.HasIndex(record => record.Day);
        builder.Property(record => record.Rejected).AsJson();
        builder.Property(record => record.Measured).AsJson();
        builder.Property(record => record.Trays).AsJson();
        builder.Property(record => record.Before).AsJson();
        builder.Ignore(record => record.RejectedCount);
        builder.Ignore(record => record.WorkedMinutes);
    }

    public void Configure(EntityTypeBuilder<DampNight> builder)
    {
        builder.ToTable("damp_nights");
        builder.HasKey(night => new { night.BatchId, night.Date });
    }

    public void Configure(EntityTypeBuilder<GradeRecord> builder)
    {
        builder.ToTable("grade_records");
        builder.HasIndex(grade => grade.BatchId);
        builder.Property(grade => grade.Grades).AsJson();
    }
}

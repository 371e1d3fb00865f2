using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>The imported history of past batches.</summary>
public sealed class PastStore(ShopDb db)
{
    public Task<List<PastStep>> Steps(CancellationToken cancel) =>
        db.Set<PastStep>().AsNoTracking().ToListAsync(cancel);

    public Task<List<PastGrade>> Grades(CancellationToken cancel) =>
        db.Set<PastGrade>().AsNoTracking().ToListAsync(cancel);

    public Task<int> StepCount(CancellationToken cancel) => db.Set<PastStep>().CountAsync(cancel);

    public Task<int> GradeCount(CancellationToken cancel) => db.Set<PastGrade>().CountAsync(cancel);

    /// <summary>Past batches of which at least one step is known.</summary>
    public Task<int> BatchCount(CancellationToken cancel) =>
        db.Set<PastStep>().Select(step => step.Batch).Distinct().CountAsync(cancel);

    public Task<List<PastStep>> StepsOf(IReadOnlyList<string> batches, CancellationToken cancel) =>
        db.Set<PastStep>().AsNoTracking().Where(step => batches.Contains(step.Batch)).ToListAsync(cancel);

    public Task<List<PastGrade>> GradesOf(IReadOnlyList<string> batches, CancellationToken cancel) =>
        db.Set<PastGrade>().AsNoTracking().Where(grade => batches.Contains(grade.Batch)).ToListAsync(cancel);

    /// <summary>
    /// Inserts rows at once, however many. The transaction stays open for the facts gate to commit.
    /// </summary>
    public async Task Add<T>(IEnumerable<T> rows, CancellationToken cancel)
        where T : class
    {
        var transaction = await db.Database.BeginTransactionAsync(cancel);

        // The version goes first: a writer in another process has then to wait, or makes this one start again.
        await db.SaveChangesAsync(cancel);
        await ManyRows<T>.Insert(db, transaction, rows, cancel);
    }
}

internal sealed class PastMapping : IEntityTypeConfiguration<PastStep>, IEntityTypeConfiguration<PastGrade>
{
    public void Configure(EntityTypeBuilder<PastStep> builder)
    {
        builder.ToTable("past_steps");
        builder.HasKey(step => new { step.Batch, step.Step });
    }

    public void Configure(EntityTypeBuilder<PastGrade> builder)
    {
        builder.ToTable("past_grades");
        builder.HasKey(grade => new { grade.Batch, grade.Strength });
    }
}

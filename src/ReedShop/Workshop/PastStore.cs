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

    public void Add(IEnumerable<PastStep> steps) => db.AddRange(steps);

    public void Add(IEnumerable<PastGrade> grades) => db.AddRange(grades);
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

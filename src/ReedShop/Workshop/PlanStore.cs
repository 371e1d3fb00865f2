using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

public sealed class PlanStore(ShopDb db)
{
    public Task<List<PlannedSitting>> Sittings(CancellationToken cancel) =>
        db.Set<PlannedSitting>().OrderBy(sitting => sitting.Day).ThenBy(sitting => sitting.Id).ToListAsync(cancel);

    public Task<PlanKey> Key(CancellationToken cancel) => db.Set<PlanKey>().SingleAsync(cancel);

    /// <summary>As it is stored now, for whoever only looks: another may be planning meanwhile.</summary>
    public Task<PlanKey> StoredKey(CancellationToken cancel) => db.Set<PlanKey>().AsNoTracking().SingleAsync(cancel);

    public async Task<long> FactsVersion(CancellationToken cancel) =>
        (await db.Set<FactsVersion>().AsNoTracking().SingleAsync(cancel)).Version;

    /// <summary>The version these facts will have once the running change is saved, or have now outside of one.</summary>
    public async Task<long> VersionBeingWritten(CancellationToken cancel) =>
        (await db.Set<FactsVersion>().SingleAsync(cancel)).Version;

    public void Add(PlannedSitting sitting) => db.Add(sitting);

    public void Remove(PlannedSitting sitting) => db.Remove(sitting);

    public Task<List<PastEvening>> PastEvenings(CancellationToken cancel) =>
        db.Set<PastEvening>().AsNoTracking().OrderBy(evening => evening.Date).ToListAsync(cancel);

    public void Add(PastEvening evening) => db.Add(evening);
}

internal sealed class PlanMapping
    : IEntityTypeConfiguration<PlannedSitting>,
        IEntityTypeConfiguration<PlanKey>,
        IEntityTypeConfiguration<PastEvening>
{
    public void Configure(EntityTypeBuilder<PastEvening> builder)
    {
        builder.ToTable("past_evenings");
        builder.HasKey(evening => evening.Date);
    }

    public void Configure(EntityTypeBuilder<PlannedSitting> builder)
    {
        builder.ToTable("planned_sittings");
        builder.HasIndex(sitting => sitting.Day);
        builder.HasIndex(sitting => sitting.BatchId);
    }

    public void Configure(EntityTypeBuilder<PlanKey> builder)
    {
        builder.ToTable("plan_key");
        builder.Property(key => key.Id).ValueGeneratedNever();
        builder.HasData(new PlanKey { FactsVersion = 0, Day = DateOnly.MinValue });
    }
}

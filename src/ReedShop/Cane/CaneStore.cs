using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Cane;

public sealed class CaneStore(ShopDb db)
{
    /// <summary>Longest seasoned first: the order in which lots are used up.</summary>
    public Task<List<CaneLot>> All(CancellationToken cancel) =>
        db.Set<CaneLot>().OrderBy(lot => lot.SeasonedFrom).ThenBy(lot => lot.Key).ToListAsync(cancel);

    public Task<CaneLot?> Find(string key, CancellationToken cancel) =>
        db.Set<CaneLot>().SingleOrDefaultAsync(lot => lot.Key == key, cancel);

    public void Add(CaneLot lot) => db.Add(lot);
}

internal sealed class CaneMapping : IEntityTypeConfiguration<CaneLot>
{
    public void Configure(EntityTypeBuilder<CaneLot> builder)
    {
        builder.ToTable("cane_lots");
        builder.HasKey(lot => lot.Key);
    }
}

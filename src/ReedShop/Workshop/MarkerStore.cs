using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>The markers of the yields.</summary>
public sealed class MarkerStore(ShopDb db)
{
    /// <summary>Latest first.</summary>
    public Task<List<Marker>> All(CancellationToken cancel) =>
        db.Set<Marker>()
            .AsNoTracking()
            .OrderByDescending(marker => marker.Date)
            .ThenBy(marker => marker.What)
            .ToListAsync(cancel);

    public Task<Marker?> Find(string id, CancellationToken cancel) =>
        db.Set<Marker>().SingleOrDefaultAsync(marker => marker.Id == id, cancel);

    public Task<Marker?> Same(Marker marker, CancellationToken cancel) =>
        db.Set<Marker>()
            .FirstOrDefaultAsync(
                other => other.Date == marker.Date && other.Model == marker.Model && other.What == marker.What,
                cancel
            );

    public void Add(Marker marker) => db.Add(marker);

    public void Remove(Marker marker) => db.Remove(marker);
}

internal sealed class MarkerMapping : IEntityTypeConfiguration<Marker>
{
    public void Configure(EntityTypeBuilder<Marker> builder)
    {
        builder.ToTable("markers");
        builder.Property(marker => marker.What).HasMaxLength(Marker.LongestWhat);
    }
}

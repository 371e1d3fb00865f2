using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform.Storage;

namespace ReedShop.Shop;

public sealed class ShopStore(ShopDb db)
{
    /// <summary>The settings, or null before the first run is finished.</summary>
    public Task<ShopSettings?> Find(CancellationToken cancel) =>
        db.Set<ShopSettings>().AsNoTracking().SingleOrDefaultAsync(cancel);

    public Task<ShopSettings> Get(CancellationToken cancel) =>
        db.Set<ShopSettings>().AsNoTracking().SingleAsync(cancel);

    public Task<ShopSettings?> FindForChange(CancellationToken cancel) =>
        db.Set<ShopSettings>().SingleOrDefaultAsync(cancel);

    public void Add(ShopSettings settings) => db.Add(settings);
}

internal sealed class ShopMapping : IEntityTypeConfiguration<ShopSettings>
{
    public void Configure(EntityTypeBuilder<ShopSettings> builder)
    {
        builder.ToTable("shop");
        builder.Property(shop => shop.Id).ValueGeneratedNever();
        builder.Property(shop => shop.Hours).AsJson();
        builder.Property(shop => shop.OtherDays).AsJson();
        builder.Property(shop => shop.Helpers).AsJson();
        builder.Property(shop => shop.ShipDays).AsJson();
        builder.Property(shop => shop.Costs).AsJson();
        builder.Property(shop => shop.Payment).AsJson();
        builder.Property(shop => shop.Shipping).AsJson();
        builder.Property(shop => shop.Version).IsConcurrencyToken();
        builder.Ignore(shop => shop.Bench);
        builder.Ignore(shop => shop.Ships);
        builder.Ignore(shop => shop.QuartersBetweenGrades);
    }
}

using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Planning.Routes;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Catalogue;

public sealed class CatalogueStore(ShopDb db)
{
    public Task<List<ReedModel>> All(CancellationToken cancel) =>
        db.Set<ReedModel>().AsNoTracking().OrderBy(model => model.Key).ToListAsync(cancel);

    public Task<ReedModel?> Find(string key, CancellationToken cancel) =>
        db.Set<ReedModel>().AsNoTracking().SingleOrDefaultAsync(model => model.Key == key, cancel);

    public Task<ReedModel?> FindForChange(string key, CancellationToken cancel) =>
        db.Set<ReedModel>().SingleOrDefaultAsync(model => model.Key == key, cancel);

    public void Add(ReedModel model) => db.Add(model);
}

internal sealed class ModelMapping : IEntityTypeConfiguration<ReedModel>
{
    public void Configure(EntityTypeBuilder<ReedModel> builder)
    {
        builder.ToTable("models");
        builder.HasKey(model => model.Key);
        builder.Property(model => model.Strengths).AsJson();
        builder
            .Property(model => model.Route)
            .HasConversion(
                route => Write(route),
                text => Read(text),
                new ValueComparer<ReedRoute>(
                    (left, right) => Write(left!) == Write(right!),
                    route => StringComparer.Ordinal.GetHashCode(Write(route)),
                    route => route
                )
            );
        builder.Property(model => model.Version).IsConcurrencyToken();
    }

    private static string Write(ReedRoute route) =>
        System.Text.Json.JsonSerializer.Serialize(RouteShape.Of(route), ShopJson.Options);

    private static ReedRoute Read(string text) =>
        RouteShape
            .Parse(System.Text.Json.JsonSerializer.Deserialize<IReadOnlyList<LegShape>>(text, ShopJson.Options)!)
            .Value;
}

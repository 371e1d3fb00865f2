using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

public sealed record DrawerCount(string Model, Strength Strength, Condition Condition, int Count);

public sealed record ShelfCount(string Model, string CaneLot, int Count);

/// <summary>Drawer, shelf and pegs.</summary>
public sealed class StockStore(ShopDb db, ShopClock clock)
{
    public Task<List<DrawerCount>> Drawer(CancellationToken cancel) =>
        db.Set<DrawerMove>()
            .GroupBy(move => new
            {
                move.Model,
                move.Strength,
                move.Condition,
            })
            .Select(group => new DrawerCount(
                group.Key.Model,
                group.Key.Strength,
                group.Key.Condition,
                group.Sum(move => move.Change)
            ))
            .ToListAsync(cancel);

    public Task<List<ShelfCount>> Shelf(CancellationToken cancel) =>
        db.Set<ShelfMove>()
            .GroupBy(move => new { move.Model, move.CaneLot })
            .Select(group => new ShelfCount(group.Key.Model, group.Key.CaneLot, group.Sum(move => move.Change)))
            .ToListAsync(cancel);

    public Task<List<Peg>> Pegs(CancellationToken cancel) => db.Set<Peg>().OrderBy(peg => peg.Id).ToListAsync(cancel);

    public void Add(Peg peg) => db.Add(peg);

    public void Remove(Peg peg) => db.Remove(peg);

    public void MoveDrawer(string model, Strength strength, Condition condition, int change, string why) =>
        db.Add(
            new DrawerMove
            {
                AtUtc = clock.NowUtc,
                Model = model,
                Strength = strength,
                Condition = condition,
                Change = change,
                Why = why,
            }
        );

    public void MoveShelf(string model, string caneLot, int change, string why, string? batchId) =>
        db.Add(
            new ShelfMove
            {
                AtUtc = clock.NowUtc,
                Model = model,
                CaneLot = caneLot,
                Change = change,
                Why = why,
                BatchId = batchId,
            }
        );
}

internal sealed class StockMapping
    : IEntityTypeConfiguration<DrawerMove>,
        IEntityTypeConfiguration<ShelfMove>,
        IEntityTypeConfiguration<Peg>
{
    public void Configure(EntityTypeBuilder<DrawerMove> builder) => builder.ToTable("drawer_moves");

    public void Configure(EntityTypeBuilder<ShelfMove> builder) => builder.ToTable("shelf_moves");

    public void Configure(EntityTypeBuilder<Peg> builder)
    {
        builder.ToTable("pegs");
        builder.HasIndex(peg => peg.OrderId);
        builder.HasIndex(peg => peg.BatchRoot);
    }
}

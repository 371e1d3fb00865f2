using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Orders;
using ReedShop.Platform.Storage;

namespace ReedShop.Vouchers;

/// <summary>A voucher with how often it is used now.</summary>
public sealed record UsedVoucher(Voucher Voucher, int Uses);

public sealed class VoucherStore(ShopDb db)
{
    /// <summary>Newest first.</summary>
    public async Task<IReadOnlyList<UsedVoucher>> All(CancellationToken cancel)
    {
        var vouchers = await db.Set<Voucher>()
            .AsNoTracking()
            .OrderByDescending(voucher => voucher.MadeUtc)
            .ThenBy(voucher => voucher.Code)
            .ToListAsync(cancel);
        var uses = await Uses(db.Set<Order>().Where(order => order.Voucher != null), cancel);
        return [.. vouchers.Select(voucher => new UsedVoucher(voucher, uses.GetValueOrDefault(voucher.Code)))];
    }

    public Task<Voucher?> Find(string code, CancellationToken cancel) =>
        db.Set<Voucher>().SingleOrDefaultAsync(voucher => voucher.Code == code, cancel);

    public async Task<int> Uses(string code, CancellationToken cancel) =>
        (await Uses(db.Set<Order>().Where(order => order.Voucher == code), cancel)).GetValueOrDefault(code);

    public void Add(Voucher voucher) => db.Add(voucher);

    /// <summary>
    /// By orders that stand, or wait to be paid. One that expired, or was cancelled before anything left, gives its use
    /// back.
    /// </summary>
    private static async Task<IReadOnlyDictionary<string, int>> Uses(IQueryable<Order> orders, CancellationToken cancel)
    {
        var standing = await orders
            .Where(order => order.Stage != OrderStage.Expired && order.Stage != OrderStage.Cancelled)
            .GroupBy(order => order.Voucher!)
            .Select(same => new { Code = same.Key, Uses = same.Count() })
            .ToListAsync(cancel);
        var cancelled = await orders
            .Where(order => order.Stage == OrderStage.Cancelled)
            .Select(order => new { Code = order.Voucher!, order.Parcels })
            .ToListAsync(cancel);
        return standing
            .Concat(cancelled.Where(order => order.Parcels.Count > 0).Select(order => new { order.Code, Uses = 1 }))
            .GroupBy(used => used.Code, StringComparer.Ordinal)
            .ToDictionary(same => same.Key, same => same.Sum(used => used.Uses), StringComparer.Ordinal);
    }
}

internal sealed class VoucherMapping : IEntityTypeConfiguration<Voucher>
{
    public void Configure(EntityTypeBuilder<Voucher> builder)
    {
        builder.ToTable("vouchers");
        builder.HasKey(voucher => voucher.Code);
        builder.Ignore(voucher => voucher.Discount);
    }
}

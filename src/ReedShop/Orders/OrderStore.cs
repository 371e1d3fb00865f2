using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Orders;

public sealed class OrderStore(ShopDb db)
{
    private static readonly OrderStage[] OpenStages =
    [
        OrderStage.AwaitingPayment,
        OrderStage.Accepted,
        OrderStage.OnBench,
        OrderStage.Ready,
    ];

    /// <summary>The answer where <see cref="Find"/> finds none.</summary>
    public static Refusal Missing => new(RefusalKind.NotFound, OrderTexts.Say["NoSuchOrder"]);

    public Task<Order?> Find(string id, CancellationToken cancel) =>
        Whole().SingleOrDefaultAsync(order => order.Id == id, cancel);

    public Task<Order?> FindByQuote(string quoteId, CancellationToken cancel) =>
        Whole().SingleOrDefaultAsync(order => order.QuoteId == quoteId, cancel);

    public Task<List<Order>> Open(CancellationToken cancel) =>
        Whole()
            .Where(order => OpenStages.Contains(order.Stage))
            .OrderBy(order => order.ShipBy)
            .ThenBy(order => order.Number)
            .ToListAsync(cancel);

    /// <summary>Newest first, a page at a time: orders with a number below <paramref name="after"/>.</summary>
    public Task<List<Order>> Page(int? after, int limit, CancellationToken cancel) =>
        Whole()
            .AsNoTracking()
            .Where(order => after == null || order.Number < after)
            .OrderByDescending(order => order.Number)
            .Take(limit)
            .ToListAsync(cancel);

    /// <summary>Of all orders, newest first, what they can be found by.</summary>
    public Task<List<OrderName>> Names(CancellationToken cancel) =>
        db.Set<Order>()
            .OrderByDescending(order => order.Number)
            .Select(order => new OrderName(
                order.Id,
                order.Number,
                order.Stage,
                order.BuyerName,
                order.BuyerEmail,
                order.ShipBy
            ))
            .ToListAsync(cancel);

    /// <summary>Orders accepted since then that were neither cancelled nor left unpaid.</summary>
    public Task<List<Order>> AcceptedSince(DateTime utc, CancellationToken cancel) =>
        Whole()
            .AsNoTracking()
            .Where(order => order.AcceptedUtc >= utc)
            .Where(order => order.Stage != OrderStage.Cancelled && order.Stage != OrderStage.Expired)
            .OrderBy(order => order.Number)
            .ToListAsync(cancel);

    /// <summary>Orders placed since then that ended because they were not paid.</summary>
    public Task<List<Order>> ExpiredSince(DateTime utc, CancellationToken cancel) =>
        Whole()
            .AsNoTracking()
            .Where(order => order.AcceptedUtc >= utc && order.Stage == OrderStage.Expired)
            .OrderBy(order => order.Number)
            .ToListAsync(cancel);

    /// <summary>
    /// Orders whose first promised day has passed, shipped or not: those shipped early would else be counted before those
    /// that will be late. One that was left unpaid, or cancelled before its day, had no promise to keep, unless the day had
    /// been given up before.
    /// </summary>
    public Task<List<Order>> PromisedBefore(DateOnly day, CancellationToken cancel) =>
        Whole()
            .AsNoTracking()
            .Where(order => order.FirstShipBy < day && !order.IsOwnDate)
            .Where(order =>
                order.WasGivenUp
                || order.CancelledOn > order.FirstShipBy
                || (order.Stage != OrderStage.Cancelled && order.Stage != OrderStage.Expired)
            )
            .OrderBy(order => order.FirstShipBy)
            .ToListAsync(cancel);

    public async Task<int> NextNumber(CancellationToken cancel) =>
        1 + (await db.Set<Order>().MaxAsync(order => (int?)order.Number, cancel) ?? 0);

    public Task<bool> Any(CancellationToken cancel) => db.Set<Order>().AnyAsync(cancel);

    public void Add(Order order) => db.Add(order);

    /// <summary>Orders with a wish to exchange that waits for an answer, the oldest first.</summary>
    public Task<List<Order>> WithOpenExchange(CancellationToken cancel) =>
        Whole()
            .AsNoTracking()
            .Where(order => order.Exchanges.Any(exchange => exchange.Stage == ExchangeStage.Asked))
            .OrderBy(order => order.Number)
            .ToListAsync(cancel);

    public Task Save(CancellationToken cancel) => db.SaveChangesAsync(cancel);

    /// <summary>False where somebody else changed the same order first: then nothing is saved.</summary>
    public async Task<bool> TrySave(CancellationToken cancel)
    {
        try
        {
            await Save(cancel);
            return true;
        }
        catch (DbUpdateException fault) when (Races.IsLost(fault))
        {
            return false;
        }
    }

    /// <summary>Its lines and its exchanges by a query each: joined, every line would come once for each exchange.</summary>
    private IQueryable<Order> Whole() => db.Set<Order>().AsSplitQuery();
}

internal sealed class OrderMapping : IEntityTypeConfiguration<Order>
{
    public void Configure(EntityTypeBuilder<Order> builder)
    {
        builder.ToTable("orders");
        builder.HasIndex(order => order.Number).IsUnique();
        builder.HasIndex(order => order.QuoteId).IsUnique();
        builder.HasIndex(order => order.Stage);
        builder.HasIndex(order => order.Voucher);
        builder.Property(order => order.Address).AsJson();
        builder.Property(order => order.Parcels).AsJson();
        builder.Property(order => order.Version).IsConcurrencyToken();
        builder.Ignore(order => order.IsOpen);
        builder.Ignore(order => order.Price);
        builder.OwnsMany(
            order => order.Lines,
            lines =>
            {
                lines.ToTable("order_lines");
                lines.WithOwner().HasForeignKey("OrderId");
                lines.HasKey("OrderId", nameof(OrderLine.Position));
                lines.Property(line => line.Position).ValueGeneratedNever();
                lines.Property(line => line.Also).AsJson();
                lines.Property(line => line.Declined).AsJson();
            }
        );
        builder.OwnsMany(
            order => order.Exchanges,
            exchanges =>
            {
                exchanges.ToTable("exchanges");
                exchanges.WithOwner().HasForeignKey("OrderId");
                exchanges.HasKey("OrderId", nameof(StrengthExchange.Number));
                exchanges.Property(exchange => exchange.Number).ValueGeneratedNever();
                exchanges.HasIndex(exchange => exchange.Stage);
                exchanges.Ignore(exchange => exchange.IsOpen);
                exchanges.Ignore(exchange => exchange.IsAgreed);
            }
        );
    }
}

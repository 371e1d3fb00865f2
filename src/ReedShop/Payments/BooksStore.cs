using Microsoft.EntityFrameworkCore;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>The rows of the money. Books that are opened are saved with the transaction they were opened in.</summary>
public sealed class BooksStore(ShopDb db, CatalogueStore catalogue, ShopClock clock)
{
    private Dictionary<PaperKind, PaperNumber>? numbers;
    private Dictionary<string, ReedModel>? models;

    /// <summary>The money of an order, to be changed.</summary>
    public async Task<OrderBooks> Open(Order order, ShopSettings shop, CancellationToken cancel)
    {
        numbers ??= await db.Set<PaperNumber>().ToDictionaryAsync(number => number.Kind, cancel);
        models ??= (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        return new OrderBooks(order, Keeping(shop))
        {
            Sessions = await db.Set<PaySession>().Where(row => row.OrderId == order.Id).ToListAsync(cancel),
            Payments = await db.Set<Payment>().Where(row => row.OrderId == order.Id).ToListAsync(cancel),
            Refunds = await db.Set<Refund>().Where(row => row.OrderId == order.Id).ToListAsync(cancel),
            Papers = await db.Set<Paper>().Where(row => row.OrderId == order.Id).ToListAsync(cancel),
            Disputes = await db.Set<Dispute>().Where(row => row.OrderId == order.Id).ToListAsync(cancel),
        };
    }

    public void Add(Dispute dispute) => db.Add(dispute);

    /// <summary>Where an order stands now, whatever has been read of it before.</summary>
    public Task<OrderStanding> StandingOf(string orderId, CancellationToken cancel) =>
        db.Set<Order>()
            .Where(order => order.Id == orderId)
            .Select(order => new OrderStanding(order.Stage, order.PaidUtc != null))
            .SingleAsync(cancel);

    public Task<PaySession?> FindSession(string? id, CancellationToken cancel) =>
        db.Set<PaySession>().AsNoTracking().SingleOrDefaultAsync(session => session.Id == id, cancel);

    public Task<PaySession> SessionToChange(string id, CancellationToken cancel) =>
        db.Set<PaySession>().SingleAsync(session => session.Id == id, cancel);

    /// <summary>The session of an order that may still be paid, if any.</summary>
    public Task<PaySession?> UnfinishedSession(string orderId, CancellationToken cancel) =>
        db.Set<PaySession>()
            .AsNoTracking()
            .Where(row => row.OrderId == orderId)
            .Where(row => row.State != PaySessionState.Paid && row.State != PaySessionState.Expired)
            .OrderByDescending(row => row.MadeUtc)
            .FirstOrDefaultAsync(cancel);

    /// <summary>Sessions about which Stripe is to be asked now.</summary>
    public Task<List<PaySession>> DueSessions(int most, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return db.Set<PaySession>()
            .AsNoTracking()
            .Where(row => row.State != PaySessionState.Paid && row.State != PaySessionState.Expired)
            .Where(row => row.AskNextUtc <= now)
            .OrderBy(row => row.AskNextUtc)
            .Take(most)
            .ToListAsync(cancel);
    }

    public Task<Payment?> FindPayment(string? stripeId, CancellationToken cancel) =>
        db.Set<Payment>()
            .AsNoTracking()
            .SingleOrDefaultAsync(row => stripeId != null && row.StripeId == stripeId, cancel);

    public Task<List<Refund>> DueRefunds(int most, CancellationToken cancel)
    {
        var now = clock.NowUtc;
        return (
            from refund in db.Set<Refund>().AsNoTracking()
            join payment in db.Set<Payment>() on refund.PaymentId equals payment.Id
            where refund.State == RefundState.Wanted && refund.NextTryUtc <= now && payment.Way == PaymentWay.Card
            orderby refund.NextTryUtc
            select refund
        )
            .Take(most)
            .ToListAsync(cancel);
    }

    public Task<Refund?> FindRefund(string id, CancellationToken cancel) =>
        db.Set<Refund>().AsNoTracking().SingleOrDefaultAsync(refund => refund.Id == id, cancel);

    public Task<Payment> PaymentOf(Refund refund, CancellationToken cancel) =>
        db.Set<Payment>().AsNoTracking().SingleAsync(payment => payment.Id == refund.PaymentId, cancel);

    public Task<Paper?> FindPaper(string orderId, PaperKind kind, int number, CancellationToken cancel) =>
        db.Set<Paper>()
            .AsNoTracking()
            .SingleOrDefaultAsync(row => row.OrderId == orderId && row.Kind == kind && row.Number == number, cancel);

    /// <summary>The number of the invoice that a credit note takes from.</summary>
    public Task<int?> InvoiceOf(Paper credit, CancellationToken cancel) =>
        db.Set<Paper>()
            .Where(row => row.OrderId == credit.OrderId && row.PaymentId == credit.PaymentId)
            .Where(row => row.Kind == PaperKind.Invoice && row.RefundId == null)
            .Select(row => (int?)row.Number)
            .FirstOrDefaultAsync(cancel);

    /// <summary>What of each order is invoiced and not paid.</summary>
    public async Task<IReadOnlyDictionary<string, long>> OwedOf(
        IReadOnlyCollection<string> orderIds,
        CancellationToken cancel
    ) =>
        (await db.Set<Paper>().AsNoTracking().Where(row => orderIds.Contains(row.OrderId)).ToListAsync(cancel))
            .GroupBy(row => row.OrderId)
            .ToDictionary(papers => papers.Key, papers => Ledger.Of([], [], [.. papers]).Owed, StringComparer.Ordinal);

    /// <summary>Sessions that are not over and met a fault when Stripe was asked about them last.</summary>
    public Task<List<PaySession>> FaultySessions(CancellationToken cancel) =>
        db.Set<PaySession>()
            .AsNoTracking()
            .Where(row => row.State != PaySessionState.Paid && row.State != PaySessionState.Expired)
            .Where(row => row.LastError != null)
            .OrderBy(row => row.MadeUtc)
            .ToListAsync(cancel);

    /// <summary>Newest first.</summary>
    public Task<List<Paper>> LatestPapers(int most, CancellationToken cancel) =>
        db.Set<Paper>()
            .AsNoTracking()
            .OrderByDescending(row => row.IssuedOn)
            .ThenByDescending(row => row.Number)
            .Take(most)
            .ToListAsync(cancel);

    /// <summary>Refunds that wait: for Stripe, for the owner's hand, or for the owner to look.</summary>
    public Task<List<Refund>> OpenRefunds(CancellationToken cancel) =>
        db.Set<Refund>()
            .AsNoTracking()
            .Where(row => row.State == RefundState.Wanted || row.State == RefundState.Refused)
            .OrderBy(row => row.AskedUtc)
            .ToListAsync(cancel);

    public Task<List<Dispute>> LatestDisputes(int most, CancellationToken cancel) =>
        db.Set<Dispute>().AsNoTracking().OrderByDescending(row => row.OpenedUtc).Take(most).ToListAsync(cancel);

    public async Task<IReadOnlyDictionary<string, PaymentWay>> WaysOf(
        IReadOnlyCollection<string> payments,
        CancellationToken cancel
    ) =>
        await db.Set<Payment>()
            .Where(row => payments.Contains(row.Id))
            .ToDictionaryAsync(row => row.Id, row => row.Way, cancel);

    public async Task<IReadOnlyDictionary<string, string>> CurrenciesOf(
        IReadOnlyCollection<string> payments,
        CancellationToken cancel
    ) =>
        await db.Set<Payment>()
            .Where(row => payments.Contains(row.Id))
            .ToDictionaryAsync(row => row.Id, row => row.Currency, cancel);

    public Task Save(CancellationToken cancel) => db.SaveChangesAsync(cancel);

    private BookKeeping Keeping(ShopSettings shop) =>
        new(
            clock.NowUtc,
            clock.Today(shop.Zone),
            shop.Name,
            shop.OwnerEmail,
            kind => ++numbers![kind].Last,
            row => db.Add(row)
        )
        {
            Models = models!,
            Note = shop.Payment.PaperNote,
            Tax = (shop.Payment.TaxName, shop.Payment.TaxShare),
        };
}

using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;

namespace ReedShop.Payments;

/// <summary>A payment, a refund or a dispute that asks for the owner, with the order it is of.</summary>
public sealed record ToLookAt(OrderName Order, Money Amount, string Says);

/// <summary>What of all money the owner should see.</summary>
/// <param name="Untold">Words of Stripe that could not be worked.</param>
public sealed record MoneyOverview(
    IReadOnlyList<ToLookAt> ToLookAt,
    IReadOnlyList<PaperView> Papers,
    IReadOnlyList<InboxMessage> Untold,
    bool TakesCards,
    bool IsTest
);

/// <summary>Reads the book for the owner's pages.</summary>
public sealed class MoneyReader(
    BooksStore store,
    OrderStore orders,
    InboxStore inbox,
    Microsoft.Extensions.Options.IOptions<StripeOptions> options
)
{
    private const int MostShown = 100;

    public async Task<MoneyOverview> Read(CancellationToken cancel)
    {
        var names = (await orders.Names(cancel)).ToDictionary(order => order.Id, StringComparer.Ordinal);
        var refunds = await store.OpenRefunds(cancel);
        var ways = await store.WaysOf([.. refunds.Select(refund => refund.PaymentId).Distinct()], cancel);
        var disputes = await store.LatestDisputes(MostShown, cancel);
        var currencies = await store.CurrenciesOf(
            [.. refunds.Select(row => row.PaymentId).Concat(disputes.Select(row => row.PaymentId)).Distinct()],
            cancel
        );
        var papers = await store.LatestPapers(MostShown, cancel);
        var owed = await store.OwedOf([.. papers.Select(row => row.OrderId).Distinct()], cancel);
        return new MoneyOverview(
            [
                .. (await store.FaultySessions(cancel)).Select(session => new ToLookAt(
                    names[session.OrderId],
                    new Money(session.AmountMinor, session.Currency),
                    $"asked for, and not known whether paid: {session.LastError}; it is asked again"
                )),
                .. disputes
                    .Where(dispute => dispute.IsOpen)
                    .Select(dispute => new ToLookAt(
                        names[dispute.OrderId],
                        new Money(dispute.AmountMinor, currencies[dispute.PaymentId]),
                        $"the buyer’s bank asks for it back ({dispute.Reason}): answer at Stripe"
                    )),
                .. refunds.Select(refund => new ToLookAt(
                    names[refund.OrderId],
                    new Money(refund.AmountMinor, currencies[refund.PaymentId]),
                    Says(refund, ways[refund.PaymentId])
                )),
            ],
            [.. papers.Select(row => PaperView.Of(row, owed[row.OrderId]))],
            await inbox.Stuck(cancel),
            options.Value.IsOn,
            options.Value.IsTest
        );
    }

    internal static string Says(Refund refund, PaymentWay way) =>
        (refund.State, way) switch
        {
            (RefundState.Refused, _) => $"to go back, and was not done: {refund.LastError}",
            (_, PaymentWay.ByHand) => "to be paid back by hand",
            _ => $"on its way back{(refund.LastError is { } fault ? $": {fault}; it is tried again" : "")}",
        };
}

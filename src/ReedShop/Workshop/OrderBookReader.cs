using System.Globalization;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>Where reeds of an order come from: the drawer, a batch, or nothing yet.</summary>
/// <param name="Batch">Number of the batch; null for the drawer.</param>
public sealed record MadeFromView(string Model, Strength Strength, int Quantity, string? Batch, bool IsOwed);

/// <summary>An open order with the state of its promise and what it is made from.</summary>
/// <param name="Outlook">What the draws say of it; null until they were made, or when its reeds lie ready.</param>
/// <param name="Finish">When its reeds are done by the plan; null when some have no place in it.</param>
public sealed record OrderBookLine(
    OwnerOrderView Order,
    string Promise,
    DateOnly? Finish,
    IReadOnlyList<MadeFromView> MadeFrom,
    OutlookView? Outlook
)
{
    /// <summary>Some of its reeds lie in the drawer and some do not.</summary>
    public bool MayShipPart => MadeFrom.Any(IsReady) && !MadeFrom.All(IsReady);

    /// <summary>A part lies ready that was promised to leave first.</summary>
    public bool OwesPart => MayShipPart && Order.Order.PartsAreFine;

    private static bool IsReady(MadeFromView reeds) => reeds.Batch is null && !reeds.IsOwed;
}

/// <summary>Open orders, late risk first, and those closed lately.</summary>
/// <param name="AskToExchange">Shipped ones whose buyers wait for an answer.</param>
/// <param name="NextShipDay">From today on; missing where no day is one.</param>
public sealed record OrderBook(
    DateOnly Today,
    DateOnly? NextShipDay,
    IReadOnlyList<OrderBookLine> Open,
    IReadOnlyList<OwnerOrderView> ClosedLately,
    IReadOnlyList<OwnerOrderView> AskToExchange
);

public sealed class OrderBookReader(FactsReader reader, OrderStore orders)
{
    private static readonly CultureInfo Invariant = CultureInfo.InvariantCulture;

    private const int NewestLooked = 100;
    private const int ClosedShown = 12;

    private static readonly string[] RiskFirst = [Punctuality.Late, Punctuality.ToWatch, Punctuality.OnTime];

    public async Task<Result<OrderBook>> Read(CancellationToken cancel)
    {
        var newest = await orders.Page(null, NewestLooked, cancel);
        var closed = newest.Where(order => !order.IsOpen).Take(ClosedShown).Select(OwnerOrderView.Of).ToArray();
        var asking = (await orders.WithOpenExchange(cancel)).Select(OwnerOrderView.Of).ToArray();
        return (await reader.Read(cancel)).Then<OrderBook>(facts => new OrderBook(
            facts.Today,
            facts.Shop.Ships.FirstAfter(facts.Today.AddDays(-1)),
            Open(facts),
            closed,
            asking
        ));
    }

    private static IReadOnlyList<OrderBookLine> Open(BenchFacts facts)
    {
        var bench = BenchWork.Of(facts);
        return
        [
            .. facts
                .Orders.Select(order => Line(facts, bench, order))
                .OrderBy(line => Array.IndexOf(RiskFirst, line.Promise))
                .ThenBy(line => line.OwesPart ? 0 : 1)
                .ThenBy(line => line.Outlook?.Chance ?? 1)
                .ThenBy(line => line.Order.Order.ShipBy)
                .ThenBy(line => line.Order.Order.Number),
        ];
    }

    private static OrderBookLine Line(BenchFacts facts, BenchWork bench, Order order)
    {
        var finish = Finishing.Of(facts, bench, bench.Current, order);
        var drawn = facts.Outlooks.GetValueOrDefault(order.Id);
        return new OrderBookLine(
            OwnerOrderView.Of(order),
            Punctuality.Of(facts, order, finish),
            order.Stage == OrderStage.Ready ? null : finish,
            MadeFrom(facts, order),
            drawn is null || order.Stage == OrderStage.Ready ? null : OutlookView.Of(drawn, order, facts)
        );
    }

    private static IReadOnlyList<MadeFromView> MadeFrom(BenchFacts facts, Order order) =>
        [
            .. facts
                .Pegs.Where(peg => peg.OrderId == order.Id)
                .GroupBy(peg => (peg.Model, peg.Strength, peg.BatchRoot))
                .Select(same => new MadeFromView(
                    same.Key.Model,
                    same.Key.Strength,
                    same.Sum(peg => peg.Quantity),
                    facts.Batches.FirstOrDefault(batch => batch.Root == same.Key.BatchRoot)?.Run.ToString(Invariant),
                    same.Key.BatchRoot == Peg.NoBatch
                )),
        ];
}

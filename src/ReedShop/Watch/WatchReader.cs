using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>What the answer for one order was made from.</summary>
public sealed record WatchKey(long FactsVersion, DateOnly Day, string Order);

/// <summary>Answers how a promise stands and what would help. It takes seconds, so the last answer is kept.</summary>
public sealed class WatchReader(FactsReader reader, LastAnswer<WatchKey, WatchView> kept)
{
    public async Task<Result<WatchView>> Read(string orderId, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var facts = read.Value;
        if (facts.Orders.FirstOrDefault(order => order.Id == orderId) is not { } order)
        {
            return Refusal.Missing("such open order");
        }

        var state = ShopStates.Of(facts);
        return state.Promises.All(promise => promise.Order != orderId)
            ? Refusal.Stage("All reeds of this order lie in the drawer.", "an order that waits for reeds")
            : await Task.Run(() => View(facts, state, order, cancel), cancel);
    }

    /// <summary>Drawn afresh, whatever was drawn last.</summary>
    public static WatchView Drawn(BenchFacts facts, ShopState state, Order order, CancellationToken cancel)
    {
        var outlook = Forecast.Of(state, causes: true, cancel: cancel).Of(order.Id);
        var words = new RescueWords(facts);
        return new WatchView(
            OwnerOrderView.Of(order),
            facts.Version,
            PromiseOf(facts, order),
            DueDay.Told(outlook.Chance),
            OutlookView.IsRisky(outlook.Chance, order, facts),
            order.FirstChance > 0
                && (order.WasGivenUp || (!order.IsOwnDate && Moving.StandsBadly(facts, order, outlook))),
            [.. outlook.Causes.Select(cause => new CauseShare(cause.Cause, cause.Share))],
            [.. Rescues.For(state, order.Id, cancel).Where(rescue => !IsDeclined(order, rescue)).Select(words.Of)],
            [
                .. facts
                    .Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is null)
                    .Select(peg => new SentReeds(peg.Model, peg.Strength, peg.Quantity)),
            ],
            outlook.ShipDayFor(order.Confidence) is { } day && day > order.ShipBy
                ? new NewDateView(day, DueDay.Told(outlook.ChanceBy(day)))
                : null
        );
    }

    private static string PromiseOf(BenchFacts facts, Order order)
    {
        var bench = BenchWork.Of(facts);
        return Punctuality.Of(facts, order, Finishing.Of(facts, bench, bench.Current, order));
    }

    private static bool IsDeclined(Order order, Rescue rescue) =>
        rescue is Rescue.OtherStrength other
        && order.Lines.Any(line =>
            (line.Model, line.Strength) == (other.Model, other.Wanted) && line.Declined.Contains(other.Also)
        );

    private WatchView View(BenchFacts facts, ShopState state, Order order, CancellationToken cancel)
    {
        var key = new WatchKey(facts.Version, facts.Today, order.Id);
        return kept.Find(key) ?? kept.Keep(key, Drawn(facts, state, order, cancel));
    }
}

using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>How an open promise stands, by draws of the whole shop.</summary>
/// <param name="Chance">Of keeping the promise.</param>
/// <param name="LikelyShipDay">The parcel leaves by then as likely as not; null where it may well never.</param>
/// <param name="SureShipDay">It leaves by then nine times in ten.</param>
/// <param name="ShortWhenLate">Of the draws that miss it, the share that comes up short of reeds or cane.</param>
/// <param name="IsFresh">Made from the facts as they are; otherwise a new one is under way.</param>
/// <param name="Causes">Why it is late in the draws that miss it, with the share of each, the largest first.</param>
/// <param name="IsAtRisk">It has fallen below what was told, and below the level the maker wants to know of.</param>
public sealed record OutlookView(
    string Order,
    int Number,
    DateOnly ShipBy,
    double Chance,
    DateOnly? LikelyShipDay,
    DateOnly? SureShipDay,
    double ShortWhenLate,
    bool IsFresh,
    IReadOnlyList<CauseShare>? Causes = null,
    bool IsAtRisk = false
)
{
    public static OutlookView Of(Outlook outlook, Order order, BenchFacts facts) =>
        new(
            order.Id,
            order.Number,
            order.ShipBy,
            DueDay.Told(outlook.Chance),
            outlook.LikelyShipDay,
            outlook.SureShipDay,
            outlook.Causes.Where(IsShort).Sum(cause => cause.Share),
            outlook.FactsVersion == facts.Version && outlook.Day == facts.Today,
            outlook.Causes,
            IsRisky(outlook.Chance, order, facts)
        );

    private static bool IsShort(CauseShare cause) => cause.Cause is LateCause.Short or LateCause.Cane;

    /// <summary>Where a day is of no use after a date, the maker wants to know at once.</summary>
    public static bool IsRisky(double chance, Order order, BenchFacts facts) =>
        PromiseWatch.IsAtRisk(chance, order.Chance, order.NeedBy is null ? facts.Shop.WatchBelow : 1);
}

public sealed class OutlookReader(FactsReader reader)
{
    public async Task<Result<IReadOnlyList<OutlookView>>> Read(CancellationToken cancel) =>
        (await reader.Read(cancel)).Then<IReadOnlyList<OutlookView>>(facts =>
            facts
                .Orders.Where(order => facts.Outlooks.ContainsKey(order.Id) && order.Stage != OrderStage.Ready)
                .Select(order => OutlookView.Of(facts.Outlooks[order.Id], order, facts))
                .OrderBy(outlook => outlook.Chance)
                .ThenBy(outlook => outlook.Number)
                .ToArray()
        );
}

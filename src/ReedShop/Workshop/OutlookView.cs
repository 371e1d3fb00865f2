using ReedShop.Orders;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>How an open promise stands, by draws of the whole shop.</summary>
/// <param name="Chance">Of keeping the promise.</param>
/// <param name="LikelyShipDay">The parcel leaves by then as likely as not; null where it may well never.</param>
/// <param name="SureShipDay">It leaves by then nine times in ten.</param>
/// <param name="ShortWhenLate">Of the draws that miss it, the share that comes up short of reeds.</param>
/// <param name="IsFresh">Made from the facts as they are; otherwise a new one is under way.</param>
public sealed record OutlookView(
    string Order,
    int Number,
    DateOnly ShipBy,
    double Chance,
    DateOnly? LikelyShipDay,
    DateOnly? SureShipDay,
    double ShortWhenLate,
    bool IsFresh
)
{
    public static OutlookView Of(Outlook outlook, Order order, BenchFacts facts) =>
        new(
            order.Id,
            order.Number,
            order.ShipBy,
            outlook.Chance,
            outlook.LikelyShipDay,
            outlook.SureShipDay,
            outlook.ShortWhenLate,
            outlook.FactsVersion == facts.Version && outlook.Day == facts.Today
        );
}

public sealed class OutlookReader(FactsReader reader, OutlookStore outlooks)
{
    public async Task<Result<IReadOnlyList<OutlookView>>> Read(CancellationToken cancel)
    {
        var drawn = (await outlooks.All(cancel)).ToDictionary(outlook => outlook.OrderId, StringComparer.Ordinal);
        return (await reader.Read(cancel)).Then<IReadOnlyList<OutlookView>>(facts =>
            facts
                .Orders.Where(order => drawn.ContainsKey(order.Id) && order.Stage != OrderStage.Ready)
                .Select(order => OutlookView.Of(drawn[order.Id], order, facts))
                .OrderBy(outlook => outlook.Chance)
                .ThenBy(outlook => outlook.Number)
                .ToArray()
        );
    }
}

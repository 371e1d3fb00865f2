using ReedShop.Orders;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>Promises of which about as many should have been kept.</summary>
/// <param name="Stated">Mean of the chances that were told with them; null where there are none.</param>
/// <param name="Share">That was kept; null where there are none.</param>
/// <param name="Low">Lower end of the 90 % interval of that share.</param>
/// <param name="DaysLate">Mean of those that left late; null where none did.</param>
/// <param name="LateAndShort">Of those not kept, how many came short of reeds.</param>
/// <param name="AgreesWithStated">Whether what was told lies within the interval.</param>
public sealed record KeptView(
    int Promises,
    int Kept,
    double? Stated,
    double? Share,
    double Low,
    double High,
    double? DaysLate,
    int LateAndShort,
    bool AgreesWithStated
)
{
    public static KeptView Of(KeptGroup group) =>
        new(
            group.Kept.Of,
            group.Kept.Happened,
            group.Stated,
            group.Kept.Share,
            group.Kept.Low,
            group.Kept.High,
            group.DaysLate,
            group.LateAndShort,
            group.AgreesWithStated
        );
}

/// <param name="From">Lower end of the chances told.</param>
public sealed record KeptByChanceView(double From, KeptView Kept);

/// <param name="Month">Its first day.</param>
public sealed record KeptByMonthView(DateOnly Month, KeptView Kept);

/// <summary>The shop's own record.</summary>
public sealed record PromisesKeptView(
    KeptView All,
    IReadOnlyList<KeptByChanceView> ByChance,
    IReadOnlyList<KeptByMonthView> ByMonth
);

/// <summary>
/// Reads the record: orders whose promised day has passed. A promise told before the shop kept this
/// book states no chance and is left out.
/// </summary>
public sealed class PromisesKeptReader(ShopStore shops, OrderStore orders, ShopClock clock)
{
    public async Task<Result<PromisesKeptView>> Read(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return FactsReader.NoShopYet;
        }

        var passed = await orders.PromisedBefore(clock.Today(shop.Zone), cancel);
        var record = KeptRecord.Of([.. passed.Where(order => order.FirstChance > 0).Select(Passed)]);
        return new PromisesKeptView(
            KeptView.Of(record.All),
            [.. record.ByChance.Select(group => new KeptByChanceView(group.From, KeptView.Of(group.Group)))],
            [.. record.ByMonth.Select(group => new KeptByMonthView(group.Month, KeptView.Of(group.Group)))]
        );
    }

    private static PassedPromise Passed(Order order) =>
        new(order.FirstShipBy, order.FirstChance, order.ShippedOn, order.CameShort, order.WasGivenUp);
}

using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>Reads the facts of today. There are none before the shop is set up.</summary>
public sealed class FactsReader(
    ShopStore shops,
    CatalogueStore models,
    CaneStore cane,
    OrderStore orders,
    BatchStore batches,
    StockStore stock,
    PlanStore plan,
    OutlookStore outlooks,
    EstimatesReader estimates,
    HazardsReader hazards,
    ShopClock clock
)
{
    public static readonly Refusal NoShopYet = ShopCommands.NoShopYet;

    public async Task<Result<BenchFacts>> Read(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return NoShopYet;
        }

        var today = clock.Today(shop.Zone);
        var catalogue = await models.All(cancel);
        var facts = new BenchFacts(batches, stock, plan)
        {
            Version = await plan.VersionBeingWritten(cancel),
            Today = today,
            NowUtc = clock.NowUtc,
            Shop = shop,
            Models = catalogue.ToDictionary(model => model.Key, StringComparer.Ordinal),
            Orders = await orders.Open(cancel),
            Batches = await batches.Open(cancel),
            Pegs = await stock.Pegs(cancel),
            Sittings = await plan.Sittings(cancel),
            Key = await plan.Key(cancel),
            Outlooks = (await outlooks.All(cancel)).ToDictionary(drawn => drawn.OrderId, StringComparer.Ordinal),
            Cane = await cane.All(cancel),
            Yields = await estimates.Read(shop, today, cancel),
            Hazards = await hazards.Read(shop, today, cancel),
            Ordered = await Ordered(shop, today, cancel),
            TraysOfRun = await batches.TraysOfRun(cancel),
            LastRun = await batches.LastRun(cancel),
            RecordsToday = await RecordsOf(today, cancel),
            StartedByRoot = await batches.StartedByRoot(cancel),
        };
        facts.Count(await stock.Drawer(cancel), await stock.Shelf(cancel));
        facts.Again = Overlong.InPlan(facts);
        return facts;
    }

    private async Task<IReadOnlyDictionary<(string Model, Strength Strength), ReedsOrdered>> Ordered(
        ShopSettings shop,
        DateOnly today,
        CancellationToken cancel
    )
    {
        var since = ShopClock.InstantOf(today.AddDays(-ReedsOrdered.Days), TimeOnly.MinValue, shop.Zone);
        return ReedsOrdered.Of(
            (await orders.AcceptedSince(since, cancel)).Select(order =>
                (
                    DateOnly.FromDateTime(order.AcceptedUtc),
                    order.Ask([.. order.Lines.Select(line => line.Ask(line.Quantity))])
                )
            ),
            today
        );
    }

    private async Task<List<(StepRecord Record, string Model)>> RecordsOf(DateOnly day, CancellationToken cancel)
    {
        var records = await batches.RecordsOn(day, cancel);
        var modelOf = await batches.ModelsOf([.. records.Select(record => record.BatchId).Distinct()], cancel);
        return [.. records.Select(record => (record, modelOf[record.BatchId]))];
    }
}

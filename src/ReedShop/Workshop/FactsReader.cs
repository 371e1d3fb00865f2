using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Orders;
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
    EstimatesReader estimates,
    ShopClock clock
)
{
    public static readonly Refusal NoShopYet = Refusal.Missing("shop yet: set it up on the first-run page");

    public async Task<Result<BenchFacts>> Read(CancellationToken cancel)
    {
        if (await shops.Find(cancel) is not { } shop)
        {
            return NoShopYet;
        }

        var today = clock.Today(shop.Zone);
        var catalogue = await models.All(cancel);
        var workedToday = await batches.RecordsOn(today, cancel);
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
            Cane = await cane.All(cancel),
            Yields = await estimates.Read(shop, today, cancel),
            TraysOfRun = await batches.TraysOfRun(cancel),
            LastRun = await batches.LastRun(cancel),
            MinutesWorkedToday = workedToday.Sum(record => record.WorkedMinutes),
            BlanksWorkedToday = await BlanksByStep(workedToday, catalogue, cancel),
        };
        facts.Count(await stock.Drawer(cancel), await stock.Shelf(cancel));
        facts.Again = Overlong.InPlan(facts);
        return facts;
    }

    private async Task<Dictionary<string, int>> BlanksByStep(
        List<StepRecord> records,
        IReadOnlyList<ReedModel> catalogue,
        CancellationToken cancel
    )
    {
        var modelOf = await batches.ModelsOf([.. records.Select(record => record.BatchId).Distinct()], cancel);
        return (
            from record in records
            let model = catalogue.FirstOrDefault(model => model.Key == modelOf.GetValueOrDefault(record.BatchId))
            where model is not null
            group record.Worked by model.Route[record.Step].Name
        ).ToDictionary(step => step.Key, step => step.Sum(), StringComparer.Ordinal);
    }
}

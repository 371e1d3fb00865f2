using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>Counts the nights that the batches of an order have done and have to go.</summary>
public sealed class NightsOfOrder(
    StockStore stock,
    BatchStore batches,
    CatalogueStore catalogue,
    ShopStore shops,
    ShopClock clock
)
{
    public async Task<NightsView?> Read(string order, CancellationToken cancel)
    {
        var roots = (await stock.Pegs(cancel))
            .Where(peg => peg.OrderId == order && peg.BatchRoot is not null)
            .Select(peg => peg.BatchRoot)
            .ToHashSet();
        var trays = (await batches.Open(cancel)).Where(tray => roots.Contains(tray.Root)).ToArray();
        if (trays.Length == 0)
        {
            return null;
        }

        var today = clock.Today((await shops.Get(cancel)).Zone);
        var routes = (await catalogue.All(cancel)).ToDictionary(model => model.Key, model => model.Route);
        return trays.Select(tray => Of(tray, routes[tray.Model], today)).MaxBy(nights => nights.ToGo);
    }

    private static NightsView Of(Batch tray, ReedRoute route, DateOnly today)
    {
        var behind = route.DryingNights(tray.FirstStep, tray.NextStep - 1);
        var lying =
            tray.LastWorkedOn is { } worked && tray.NextStep > tray.FirstStep
                ? Math.Max(
                    0,
                    route.DryingNights(tray.NextStep - 1, tray.NextStep - 1)
                        + tray.DampNights
                        - (today.DayNumber - worked.DayNumber)
                )
                : 0;
        var ahead = route.DryingNights(tray.NextStep, tray.LastStep);
        return new NightsView(Math.Max(0, behind - lying), lying + ahead);
    }
}

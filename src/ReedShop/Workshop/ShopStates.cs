using ReedShop.Catalogue;
using ReedShop.Planning.Promising;

namespace ReedShop.Workshop;

/// <summary>The facts as the promiser reads them.</summary>
public static class ShopStates
{
    public static ShopState Of(BenchFacts facts)
    {
        var bench = BenchWork.Of(facts);
        return new ShopState(
            facts.Today,
            facts.Shop.Bench,
            facts.Shop.Ships,
            facts.Hazards,
            facts.Shop.MostBlanksPerBatch,
            bench.Work,
            bench.Current,
            facts.Drawer.Keys.ToDictionary(key => key, key => Math.Max(0, facts.DrawerFree(key.Model, key.Strength))),
            facts.Models.Values.ToDictionary(model => model.Key, model => Supply(facts, model), StringComparer.Ordinal),
            [.. Batches(facts, bench)]
        )
        {
            Trays = [.. Trays(facts, bench)],
            Promises = [.. Promises(facts)],
            Ordered = facts.Ordered,
            ClipChance = facts.Shop.ClipChance,
            QuartersBetweenGrades = facts.Shop.QuartersBetweenGrades,
        };
    }

    public static ModelSupply Supply(BenchFacts facts, ReedModel model) =>
        new(
            model.Route,
            lot => facts.Yields.For(model.Key, lot),
            [.. Shelf(facts, model.Key)],
            [.. Cane(facts, model.Key)]
        );

    private static IEnumerable<ShelfSupply> Shelf(BenchFacts facts, string model) =>
        facts
            .Shelf.Where(rested => rested.Key.Model == model && rested.Value > 0)
            .OrderBy(rested => rested.Key.Lot, StringComparer.Ordinal)
            .Select(rested => new ShelfSupply(rested.Key.Lot, rested.Value));

    private static IEnumerable<CaneSupply> Cane(BenchFacts facts, string model) =>
        facts
            .Cane.Where(lot => lot.Model == model && lot.BlanksLeft > 0)
            .Select(lot => new CaneSupply(lot.Key, lot.SeasonedFrom, lot.BlanksLeft));

    private static IEnumerable<OpenTray> Trays(BenchFacts facts, BenchWork bench)
    {
        var batches = facts.OpenBatches.ToDictionary(batch => batch.Id, StringComparer.Ordinal);
        return bench
            .Work.Batches.Select(work => batches[work.Id])
            .Select(batch => new OpenTray(
                batch.Id,
                batch.Root,
                batch.Model,
                batch.Aim,
                batch.CaneLot,
                batch.NextStep,
                batch.Blanks,
                bench.Sittings[batch.Id]
            ));
    }

    /// <summary>Reeds that lie in the drawer already keep no order waiting.</summary>
    private static IEnumerable<OpenPromise> Promises(BenchFacts facts) =>
        from order in facts.Orders
        let pegs = facts.Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is not null).ToArray()
        where pegs.Length > 0
        orderby order.ShipBy
        select new OpenPromise(order.Id, order.ShipBy, [.. pegs.Select(peg => Waiting(facts, peg))], order.Chance);

    /// <summary>A peg as the promiser reads it.</summary>
    public static PeggedReeds Waiting(BenchFacts facts, Peg peg) =>
        new(
            peg.BatchRoot == Peg.NoBatch ? null : peg.BatchRoot,
            peg.Model,
            [.. facts.AcceptedFor(peg).OrderBy(strength => Math.Abs(strength.Quarters - peg.Strength.Quarters))],
            peg.Quantity
        );

    private static IEnumerable<OpenBatch> Batches(BenchFacts facts, BenchWork bench)
    {
        foreach (var trays in facts.OpenBatches.Where(b => b.Aim is not null).GroupBy(b => b.Root))
        {
            var finishDays = trays.Select(tray => bench.FinishDay(bench.Current, tray.Id)).ToArray();
            var first = trays.First();
            var pegs = facts.PegsOn(trays.Key);
            if (finishDays.Any(day => day is null) || pegs.Any(peg => peg.Strength != pegs[0].Strength))
            {
                continue;
            }

            yield return new OpenBatch(
                trays.Key,
                first.Model,
                first.Aim!.Value,
                first.CaneLot,
                trays.Min(tray => tray.NextStep),
                trays.Sum(tray => tray.Blanks),
                finishDays.Max()!.Value,
                trays.Select(tray => WayAhead.Of(bench.Sittings[tray.Id])).Aggregate(WayAhead.Longest),
                pegs.Sum(peg => peg.Quantity),
                pegs.Select(peg => peg.Cover).DefaultIfEmpty(0).Max()
            )
            {
                Serves = pegs.Count == 0 ? first.Aim!.Value : pegs[0].Strength,
            };
        }
    }
}

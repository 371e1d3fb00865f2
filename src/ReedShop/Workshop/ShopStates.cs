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
            facts.Shop.DampNightChance,
            facts.Shop.MostBlanksPerBatch,
            bench.Work,
            bench.Current,
            facts.Drawer.Keys.ToDictionary(key => key, key => Math.Max(0, facts.DrawerFree(key.Model, key.Strength))),
            facts.Models.Values.ToDictionary(model => model.Key, model => Supply(facts, model), StringComparer.Ordinal),
            [.. Batches(facts, bench)]
        );
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

    private static IEnumerable<OpenBatch> Batches(BenchFacts facts, BenchWork bench)
    {
        foreach (var trays in facts.OpenBatches.Where(b => b.Aim is not null).GroupBy(b => b.Root))
        {
            var finishDays = trays.Select(tray => bench.FinishDay(bench.Current, tray.Id)).ToArray();
            var first = trays.First();
            var pegs = facts.PegsOn(trays.Key);
            if (finishDays.Any(day => day is null) || pegs.Any(peg => peg.Strength != first.Aim))
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
                trays.Max(tray => bench.Sittings[tray.Id].Sum(sitting => sitting.Work.Nights)),
                pegs.Sum(peg => peg.Quantity),
                pegs.Select(peg => peg.Cover).DefaultIfEmpty(0).Max()
            );
        }
    }
}

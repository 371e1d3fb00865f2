using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>The book as the promiser reads it.</summary>
internal static class TrialState
{
    /// <param name="yields">For a model and a lot; a rule that asks for none has none made.</param>
    public static ShopState Of(Book book, BenchWorkload bench, Func<string, string?, YieldEstimate> yields) =>
        new(
            book.Today,
            book.Premises.Bench,
            book.Premises.Ships,
            new HazardHistory(book.Nights, book.Evenings).Hazards(Premises.DampNightChance, Premises.LostEveningChance),
            Premises.MostBlanksPerBatch,
            bench.Work,
            bench.Current,
            book.Drawer,
            book.Premises.Models.ToDictionary(
                model => model.Name,
                model => Supply(book, model, lot => yields(model.Name, lot))
            ),
            [
                .. book
                    .Batches.Where(batch => batch.Alive > 0)
                    .Select(batch => Open(book, bench, batch))
                    .OfType<OpenBatch>(),
            ]
        )
        {
            Trays = [.. bench.Work.Batches.Select(work => Open(bench, bench.Trays[work.Id]))],
            QuartersBetweenGrades = book.Premises.QuartersBetweenGrades,
            Ordered = ReedsOrdered.Of(book.Orders.Select(order => (order.OrderedOn, order.Request)), book.Today),
            Promises =
            [
                .. book
                    .Pegs.GroupBy(peg => peg.Order)
                    .OrderBy(pegs => pegs.Key.ShipBy)
                    .ThenBy(pegs => pegs.Key.Wish.Number)
                    .Select(pegs => new OpenPromise(
                        NameOf(pegs.Key),
                        pegs.Key.ShipBy,
                        [.. pegs.Select(Waiting)],
                        pegs.Key.Chance
                    )),
            ],
        };

    private static string NameOf(TrialOrder order) => FormattableString.Invariant($"{order.Wish.Number}");

    private static PeggedReeds Waiting(TrialPeg peg) =>
        new(peg.Batch?.Id, peg.Line.Model, [.. peg.Order.Request.Accepted(peg.Line)], peg.Quantity);

    private static OpenTray Open(BenchWorkload bench, TrialTray tray) =>
        new(
            tray.Id,
            tray.Batch.Id,
            tray.Batch.Model.Name,
            tray.Batch.Aim,
            tray.Batch.Lot,
            tray.NextStep,
            tray.Blanks,
            bench.Sittings(tray.Id)
        );

    private static ModelSupply Supply(Book book, TrialModel model, Func<string?, YieldEstimate> yields) =>
        new(
            model.Route,
            yields,
            [],
            [
                .. book
                    .Cane.Where(lot => lot.Model == model.Name && lot.BlanksLeft > 0)
                    .Select(lot => new CaneSupply(lot.Name, lot.SeasonedFrom, lot.BlanksLeft)),
            ]
        );

    /// <summary>Null for a batch of which some tray has no place in the plan.</summary>
    private static OpenBatch? Open(Book book, BenchWorkload bench, TrialBatch batch)
    {
        var trays = batch.Open.ToArray();
        if (trays.Any(tray => bench.FinishDay(tray) is null))
        {
            return null;
        }

        var pegs = book.PegsOn(batch);
        return new OpenBatch(
            batch.Id,
            batch.Model.Name,
            batch.Aim,
            batch.Lot,
            trays.Min(tray => tray.NextStep),
            batch.Alive,
            trays.Max(tray => bench.FinishDay(tray)!.Value),
            trays.Select(bench.Ahead).Aggregate(WayAhead.Longest),
            pegs.Sum(peg => peg.Quantity),
            pegs.Select(peg => peg.Cover).DefaultIfEmpty(0).Max()
        )
        {
            Serves = pegs.Count == 0 ? batch.Aim : pegs[0].Line.Strength,
        };
    }
}

using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Promising;

namespace ReedShop.Workshop;

/// <summary>
/// Brings the due day of every open order up to the facts: blanks that were lost and nights that are over change what
/// the stated chance asks for. What was promised stays as it was told.
/// </summary>
public static class DueDays
{
    public static void Renew(BenchFacts facts)
    {
        var bench = BenchWork.Of(facts);
        var trays = facts.OpenBatches.Where(batch => batch.Aim is not null).ToLookup(batch => batch.Root);
        foreach (var order in facts.Orders.Where(order => order.Stage != OrderStage.Ready))
        {
            var lines = facts
                .Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is { } root && trays[root].Any())
                .GroupBy(peg => peg.LinePosition)
                .Select(pegs => Line(facts, bench, [.. pegs], trays))
                .ToArray();
            if (lines.Length > 0)
            {
                order.FinishBy = DueDay.Of(
                    facts.Shop.Bench,
                    facts.Today,
                    order.ShipBy,
                    Stated(order),
                    lines.Aggregate(1.0, (cover, line) => cover * line.Cover),
                    lines.Select(line => line.Ahead).Aggregate(WayAhead.Longest),
                    facts.Hazards
                );
            }
        }
    }

    /// <summary>A promise given before the shop kept this book states no chance; it is planned as one of today would be.</summary>
    private static double Stated(Order order) => order.FirstTry > 0 ? order.FirstTry : order.Confidence;

    /// <summary>The batches of a line are one pool; earlier promises on them are served first.</summary>
    private static (double Cover, WayAhead Ahead) Line(
        BenchFacts facts,
        BenchWork bench,
        Peg[] pegs,
        ILookup<string, Batch> trays
    )
    {
        var pool = pegs.Select(peg => peg.BatchRoot!).Distinct().SelectMany(root => trays[root]).ToArray();
        var wanted = pegs.DistinctBy(peg => peg.BatchRoot).Sum(peg => WantedUpTo(facts, peg));
        var cover = LineCover.Of(
            ShopStates.Supply(facts, facts.Models[pool[0].Model]),
            facts.AcceptedFor(pegs[0]),
            [.. pool.Select(tray => new AliveBlanks(tray.Aim!.Value, tray.CaneLot, tray.NextStep, tray.Blanks))],
            wanted
        );
        return (cover, pool.Select(tray => Ahead(bench, tray)).Aggregate(WayAhead.Longest));
    }

    /// <summary>Nights that the rest of its route needs and those that its blanks on the rack still lie now; its sittings.</summary>
    private static WayAhead Ahead(BenchWork bench, Batch tray)
    {
        var work = bench.Work.Batches.Single(batch => batch.Id == tray.Id);
        var ahead = WayAhead.Of(bench.Sittings[tray.Id]);
        return ahead with { Nights = ahead.Nights + (work.OnRack ? work.ReleaseDay : 0) };
    }

    private static int WantedUpTo(BenchFacts facts, Peg last) =>
        facts.PegsOn(last.BatchRoot!).TakeWhile(peg => peg.OrderId != last.OrderId).Sum(peg => peg.Quantity)
        + facts.Pegs.Where(peg => peg.BatchRoot == last.BatchRoot && peg.OrderId == last.OrderId).Sum(p => p.Quantity);
}

using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Sizing;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>A run that would fill the shelf, on evenings that are idle otherwise.</summary>
/// <param name="Evenings">Days of its sittings, with nothing moved; none where no evening is idle.</param>
public sealed record PrepareView(int Blanks, string CaneLot, IReadOnlyList<DateOnly> Evenings);

/// <summary>How many rested blanks of a model the shelf should hold, and how many there are.</summary>
/// <param name="Level">Blanks on the shelf and in preparation to be topped up to; 0 while there was no order.</param>
/// <param name="Chance">That orders take no more before the next run is there.</param>
/// <param name="MeanDemand">Blanks that orders take on the mean until then.</param>
/// <param name="Orders">Orders behind the figure, of the last <paramref name="DemandDays"/> days.</param>
/// <param name="ReplenishmentDays">A week until an idle evening, and the days of preparation.</param>
/// <param name="InPreparation">Blanks of runs for the shelf that are expected to arrive.</param>
/// <param name="Prepare">Missing where nothing is short, or there is no seasoned cane.</param>
public sealed record ShelfLevelView(
    string Model,
    int Level,
    double Chance,
    double MeanDemand,
    int Orders,
    int DemandDays,
    int ReplenishmentDays,
    int OnShelf,
    int InPreparation,
    int Short,
    PrepareView? Prepare
);

/// <summary>Reads shelf levels off past orders, and what to prepare in idle evenings.</summary>
public sealed class ShelfLevels(FactsReader reader, OrderStore orders)
{
    /// <summary>Older orders say little of what will be wanted.</summary>
    private const int DemandDays = 180;

    /// <summary>A shop that has just opened brings the orders of some weeks with it.</summary>
    private const int LeastDays = 30;

    /// <summary>The maker looks for an idle evening about once a week.</summary>
    private const int WaitDays = 7;

    /// <summary>A reed that hardly ever lands on its strength must not ask for hundreds of blanks.</summary>
    private const double LeastGood = 0.1;

    public async Task<Result<IReadOnlyList<ShelfLevelView>>> Read(CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var facts = read.Value;
        var since = facts.NowUtc.AddDays(-DemandDays);
        var past = await orders.AcceptedSince(since, cancel);
        var first = past.Select(order => order.AcceptedUtc).DefaultIfEmpty(since).Min();
        var days = Math.Max(LeastDays, 1 + (int)(facts.NowUtc - first).TotalDays);
        var idle = new IdleEvenings(facts);
        return facts
            .Models.Values.Where(model => model.Selling && model.Route.FirstFinishingStep > 1)
            .OrderBy(model => model.Key, StringComparer.Ordinal)
            .Select(model => Of(facts, model, new PastDemand(days, Blanks(facts, model, past)), idle))
            .ToArray();
    }

    private static ShelfLevelView Of(BenchFacts facts, ReedModel model, PastDemand past, IdleEvenings idle)
    {
        var route = model.Route;
        var lastStep = route.FirstFinishingStep - 1;
        var usual = facts.Shop.Bench.UsualMinutes(facts.Today);
        var run = RunWork.Of(route, 1, facts.Shop.MostBlanksPerBatch, usual, lastStep);
        var replenishment = WaitDays + run.Nights + 1;
        var level = ShelfLevel.For(past, replenishment, facts.Shop.ShelfService);
        var onShelf = facts
            .Shelf.Where(rested => rested.Key.Model == model.Key)
            .Sum(rested => Math.Max(0, rested.Value));
        var coming = (int)Math.Round(InPreparation(facts, model));
        var missing = Math.Max(0, level.Blanks - onShelf - coming);
        return new ShelfLevelView(
            model.Key,
            level.Blanks,
            level.Chance,
            level.MeanDemand,
            past.Orders.Count,
            past.Days,
            replenishment,
            onShelf,
            coming,
            missing,
            missing == 0 ? null : Prepare(facts, model, missing, idle)
        );
    }

    private static PrepareView? Prepare(BenchFacts facts, ReedModel model, int missing, IdleEvenings idle)
    {
        var seasoned = facts.Cane.Where(lot =>
            lot.Model == model.Key && lot.BlanksLeft > 0 && lot.SeasonedFrom <= facts.Today
        );
        if (seasoned.FirstOrDefault() is not { } lot)
        {
            return null;
        }

        var steps = model.Route.CountedSteps(1, model.Route.FirstFinishingStep - 1);
        var kept = Math.Max(LeastGood, facts.Yields.For(model.Key, lot.Key).Along(steps).Mean);
        var wanted = (int)Math.Ceiling(missing / kept);
        var blanks = Math.Min(Math.Min(wanted, facts.Shop.MostBlanksPerBatch), lot.BlanksLeft);
        return new PrepareView(blanks, lot.Key, idle.Take(model.Route, blanks));
    }

    /// <summary>Blanks that runs for the shelf will bring on the mean.</summary>
    private static double InPreparation(BenchFacts facts, ReedModel model) =>
        facts
            .OpenBatches.Where(batch => batch.Model == model.Key && batch.LastStep < model.Route.FirstFinishingStep)
            .Sum(batch =>
                batch.Blanks
                * facts
                    .Yields.For(model.Key, batch.CaneLot)
                    .Along(model.Route.CountedSteps(batch.NextStep, batch.LastStep))
                    .Mean
            );

    /// <summary>What each order of a model would take from the shelf: more blanks than reeds, as not all come out right.</summary>
    private static IReadOnlyList<int> Blanks(BenchFacts facts, ReedModel model, IEnumerable<Order> past)
    {
        var yields = facts.Yields.For(model.Key, null);
        var kept = yields.Along(model.Route.CountedSteps(model.Route.FirstFinishingStep, model.Route.Steps.Count)).Mean;
        return
        [
            .. past.Select(order => order.Lines.Where(line => line.Model == model.Key).Sum(Blanks))
                .Where(blanks => blanks > 0)
                .Select(blanks => (int)Math.Ceiling(blanks)),
        ];

        double Blanks(OrderLine line)
        {
            var right = yields.Grades(line.Strength).Share(new HashSet<Strength> { line.Strength });
            return line.Quantity / Math.Max(LeastGood, kept * right);
        }
    }
}

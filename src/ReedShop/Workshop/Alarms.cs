using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Sizing;

namespace ReedShop.Workshop;

/// <summary>The least blanks that must come to a step for what is pegged to the batch to stay covered as stated.</summary>
public sealed record AlarmView(int Step, string Name, int Blanks);

/// <summary>The alarm lines of a batch over all its trays, at the steps still ahead.</summary>
/// <param name="Alive">Blanks of all its trays.</param>
/// <param name="IsRung">Fewer are alive than must come to the next counted step.</param>
public sealed record AlarmsView(int Alive, bool IsRung, IReadOnlyList<AlarmView> Lines);

/// <summary>Reads alarm lines off the facts.</summary>
public static class Alarms
{
    /// <summary>Null where nothing is pegged to the batch, or no counted step lies ahead.</summary>
    public static AlarmsView? Of(BenchFacts facts, string root)
    {
        var trays = facts.OpenBatches.Where(batch => batch.Root == root).ToArray();
        if (trays is not [{ Aim: { } aim } first, ..] || Pegged(facts, root) is not { Count: > 0 } pegged)
        {
            return null;
        }

        var route = facts.Models[first.Model].Route;
        var yields = facts.Yields.For(first.Model, first.CaneLot);
        var lines = AlarmLines.Of(
            yields,
            route.CountedSteps(trays.Min(tray => tray.FirstStep), first.LastStep),
            yields.Grades(aim),
            trays.Max(tray => tray.Started),
            pegged
        );
        var next = trays.Min(tray => tray.NextStep);
        AlarmView[] ahead =
        [
            .. lines
                .Select(line => new AlarmView(route.NumberOf(line.Step)!.Value, line.Step, line.Blanks))
                .Where(line => line.Step >= next),
        ];
        var alive = trays.Sum(tray => tray.Blanks);
        return ahead.Length == 0 ? null : new AlarmsView(alive, alive < ahead[0].Blanks, ahead);
    }

    /// <summary>Orders are served in the order of their promised days: each needs what those before it need too.</summary>
    private static List<PeggedNeed> Pegged(BenchFacts facts, string root)
    {
        var pegs = facts.PegsOn(root);
        if (pegs.Count == 1)
        {
            return [new PeggedNeed(GradeNeed.Any(Accepted(facts, pegs[0]), pegs[0].Quantity), pegs[0].Cover)];
        }

        var counts = new Dictionary<Strength, int>();
        var pegged = new List<PeggedNeed>();
        foreach (var peg in pegs)
        {
            counts[peg.Strength] = counts.GetValueOrDefault(peg.Strength) + peg.Quantity;
            pegged.Add(new PeggedNeed(GradeNeed.Each(counts), peg.Cover));
        }

        return pegged;
    }

    private static HashSet<Strength> Accepted(BenchFacts facts, Peg peg)
    {
        var order = facts.OrderOf(peg);
        return
        [
            .. new PromiseRequest([], order.Confidence, order.Neighbours).Accepted(
                new PromiseLine(peg.Model, peg.Strength, peg.Quantity)
            ),
        ];
    }
}

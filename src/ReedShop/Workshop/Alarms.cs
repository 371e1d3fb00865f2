using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Sizing;

namespace ReedShop.Workshop;

/// <summary>The least blanks that must come to a step for what is pegged to the batch to stay covered as stated.</summary>
public sealed record AlarmView(int Step, string Name, int Blanks);

/// <summary>The alarm lines of a batch over all its trays, at the steps that all of them have still ahead.</summary>
/// <param name="Alive">Blanks of all its trays.</param>
/// <param name="IsRung">Those alive, each tray at its own step, cover less of what is pegged than was stated.</param>
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
        var steps = route.CountedSteps(trays.Min(tray => tray.FirstStep), first.LastStep);
        var started = facts.StartedByRoot.GetValueOrDefault(root, first.Started);
        var lines = AlarmLines
            .Of(yields, steps, yields.Grades(aim), started, pegged)
            .Select(line => new AlarmView(route.NumberOf(line.Step)!.Value, line.Step, line.Blanks));
        var waiting = LineCover.Waiting(route, trays.Select(tray => (tray.NextStep, tray.Blanks)));
        return waiting.All(place => place.CountedSteps.Count == 0)
            ? null
            : new AlarmsView(
                trays.Sum(tray => tray.Blanks),
                AlarmLines.Rings(yields, steps, yields.Grades(aim), started, waiting, pegged),
                [.. lines.Where(line => line.Step >= trays.Max(tray => tray.NextStep))]
            );
    }

    /// <summary>Orders are served in the order of their promised days: each needs what those before it need too.</summary>
    private static List<PeggedNeed> Pegged(BenchFacts facts, string root)
    {
        var pegs = facts.PegsOn(root);
        if (pegs.Count == 1)
        {
            return [new PeggedNeed(GradeNeed.Any(facts.AcceptedFor(pegs[0]), pegs[0].Quantity), pegs[0].Cover)];
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
}

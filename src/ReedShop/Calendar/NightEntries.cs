using ReedShop.Planning.Routes;
using ReedShop.Platform.Layout;
using ReedShop.Workshop;

namespace ReedShop.Calendar;

/// <summary>Nights on the rack: from the evening blanks come on it until the day they leave it.</summary>
internal static class NightEntries
{
    public static IEnumerable<PlanEntry> Of(BenchFacts facts, Batch batch)
    {
        var route = facts.Models[batch.Model].Route;
        // The parts of a sitting that is cut go on the rack as they are done.
        var work = facts
            .Sittings.Where(sitting => sitting.BatchId == batch.Id)
            .GroupBy(sitting => sitting.LastStep)
            .Select(parts => (Day: parts.Min(part => part.Day), LastStep: parts.Key))
            .OrderBy(sitting => sitting.LastStep)
            .ToList();
        if (batch is { LastWorkedOn: { } worked, NextStep: > 1 })
        {
            work.Insert(0, (worked, batch.NextStep - 1));
        }

        return work.Zip(work.Skip(1))
            .Where(pair => pair.First.Day < pair.Second.Day && route[pair.First.LastStep].Then is Follow.Dry)
            .DistinctBy(pair => pair.First.LastStep)
            .Select(pair => Entry(batch, pair.First.LastStep, pair.First.Day, pair.Second.Day));
    }

    private static PlanEntry Entry(Batch batch, int after, DateOnly on, DateOnly off) =>
        new(
            $"{batch.Id}-{Words.Plain(after)}-nights",
            batch.Id,
            new EntryContent(
                EntryKind.Nights,
                on,
                off.AddDays(-1),
                null,
                null,
                $"On the rack: batch {batch.Number}",
                $"{Words.Count(off.DayNumber - on.DayNumber, "night", "nights")}, {Words.Blanks(batch.Blanks)}"
            )
        );
}

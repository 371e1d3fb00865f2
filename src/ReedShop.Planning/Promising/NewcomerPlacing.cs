using System.Collections.Concurrent;
using System.Globalization;
using System.Runtime.CompilerServices;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

/// <summary>Finds days for batches that do not exist yet, one after another, among those that do.</summary>
internal sealed class NewcomerPlacing(ShopState state)
{
    /// <summary>Where the first batches of an order found their places: a buyer who types asks for the same again.</summary>
    private static readonly ConditionalWeakTable<
        ShopState,
        ConcurrentDictionary<Wish, IReadOnlyList<NewBatch>?>
    > Found = [];

    private readonly List<WorkBatch> batches = [.. state.Work.Batches];
    private readonly Dictionary<string, int[]> days = state.Plan.Days.ToDictionary(StringComparer.Ordinal);
    private readonly Dictionary<string, int[]> people = state.Plan.People.ToDictionary(StringComparer.Ordinal);

    /// <summary>
    /// So many blanks as one batch, or as several of equal size where they are more than one batch may have, each as
    /// early as the bench allows; null when one finds no place.
    /// </summary>
    public IReadOnlyList<NewBatch>? Earliest(PromiseLine line, Strength aim, BlankSource source, int blanks)
    {
        if (batches.Count > state.Work.Batches.Count)
        {
            return Place(line, aim, source, blanks);
        }

        var found = Found.GetOrCreateValue(state);
        var wish = new Wish(line.Model, source, blanks);
        if (!found.TryGetValue(wish, out var known))
        {
            return found[wish] = Place(line, aim, source, blanks);
        }

        return known?.Select(batch => Stand(batch with { Aim = aim })).ToArray();
    }

    private List<NewBatch>? Place(PromiseLine line, Strength aim, BlankSource source, int blanks)
    {
        var route = state.Models[line.Model].Route;
        var usual = state.Bench.UsualMinutes(state.Today);
        var count = (blanks + state.MostBlanksPerBatch - 1) / state.MostBlanksPerBatch;
        var made = new List<NewBatch>();
        var before = batches.Count;
        for (var part = 1; part <= count; part++)
        {
            var share = (blanks * part / count) - (blanks * (part - 1) / count);
            var sittings = BatchWork.Sittings(route, source.FirstStep, route.Steps.Count, share, usual);
            var batch = new NewBatch(
                line.Model,
                aim,
                source.Lot,
                source.FromShelf,
                source.FirstStep,
                route.Steps.Count,
                share,
                source.NotBeforeDay,
                sittings,
                []
            );
            if (Planner.PlaceEarliest(Work, Plan, Newcomer(batch, null)) is not { } found)
            {
                Forget(before);
                return null;
            }

            made.Add(Keep(batch, found));
        }

        return made;
    }

    /// <summary>Parts that were placed before one found no place must not stand in the way of what is tried next.</summary>
    private void Forget(int before)
    {
        foreach (var newcomer in batches.Skip(before))
        {
            days.Remove(newcomer.Id);
            people.Remove(newcomer.Id);
        }

        batches.RemoveRange(before, batches.Count - before);
    }

    private Workload Work => state.Work with { Batches = batches };

    private Plan Plan => new(days) { People = people };

    private WorkBatch Newcomer(NewBatch batch, int? dueDay) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"new {batches.Count}"),
            batch.Blanks,
            batch.NotBeforeDay,
            dueDay,
            [.. batch.Sittings.Select(sitting => sitting.Work)]
        );

    /// <summary>Takes a place that was found before.</summary>
    private NewBatch Stand(NewBatch batch)
    {
        var newcomer = Newcomer(batch, null);
        batches.Add(newcomer);
        days[newcomer.Id] = [.. batch.Days];
        if (state.Work.People > 1)
        {
            people[newcomer.Id] = [.. batch.People];
        }

        return batch;
    }

    private NewBatch Keep(NewBatch batch, int[] found)
    {
        var newcomer = Newcomer(batch, null);
        batches.Add(newcomer);
        days[newcomer.Id] = found;
        if (state.Work.People == 1)
        {
            return batch with { Days = found };
        }

        people[newcomer.Id] = Planner.NamePeople(Work, Plan).People[newcomer.Id];
        return batch with { Days = found, People = people[newcomer.Id] };
    }

    private sealed record Wish(string Model, BlankSource Source, int Blanks);
}

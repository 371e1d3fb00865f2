using System.Globalization;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Promising;

/// <summary>Finds days for batches that do not exist yet, one after another, among those that do.</summary>
internal sealed class NewcomerPlacing(Workload work, Plan plan)
{
    private readonly List<WorkBatch> batches = [.. work.Batches];
    private readonly Dictionary<string, int[]> days = plan.Days.ToDictionary(StringComparer.Ordinal);
    private readonly Dictionary<string, int[]> people = plan.People.ToDictionary(StringComparer.Ordinal);

    /// <summary>
    /// So many blanks as one batch, or as several of equal size where they are more than one batch may have, each as
    /// early as the bench allows; null when one finds no place.
    /// </summary>
    public IReadOnlyList<NewBatch>? Earliest(
        ShopState state,
        PromiseLine line,
        Strength aim,
        BlankSource source,
        int blanks
    )
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

    /// <summary>
    /// The same batches as late as the day they must be finished by allows, which leaves the early evenings to others;
    /// null when they do not all fit, and then the early days stand.
    /// </summary>
    public IReadOnlyList<PromisedLine>? AsLateAs(IReadOnlyList<PromisedLine> lines, int finishByDay)
    {
        var late = new List<PromisedLine>();
        foreach (var line in lines)
        {
            var moved = new List<NewBatch>();
            foreach (var batch in line.New)
            {
                var found = Planner.PlaceBest(Work, Plan, Newcomer(batch, finishByDay));
                if (found is null || (batch with { Days = found }).FinishDay > finishByDay)
                {
                    return null;
                }

                moved.Add(Keep(batch, found));
            }

            late.Add(line with { New = moved });
        }

        return late;
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

    private Workload Work => work with { Batches = batches };

    private Plan Plan => new(days) { People = people };

    private WorkBatch Newcomer(NewBatch batch, int? dueDay) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"new {batches.Count}"),
            batch.Blanks,
            batch.NotBeforeDay,
            dueDay,
            [.. batch.Sittings.Select(sitting => sitting.Work)]
        );

    private NewBatch Keep(NewBatch batch, int[] found)
    {
        var newcomer = Newcomer(batch, null);
        batches.Add(newcomer);
        days[newcomer.Id] = found;
        if (work.People == 1)
        {
            return batch with { Days = found };
        }

        people[newcomer.Id] = Planner.NamePeople(Work, Plan).People[newcomer.Id];
        return batch with { Days = found, People = people[newcomer.Id] };
    }
}

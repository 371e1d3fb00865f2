using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>Evenings on which a run for the shelf has room without anything being moved; a run that took them keeps them.</summary>
internal sealed class IdleEvenings(BenchFacts facts)
{
    private readonly List<WorkBatch> taken = [];
    private readonly Dictionary<string, int[]> days = new(StringComparer.Ordinal);
    private readonly BenchWork bench = BenchWork.Of(facts);

    public IReadOnlyList<DateOnly> Take(ReedRoute route, int blanks)
    {
        var usual = facts.Shop.Bench.UsualMinutes(facts.Today);
        var run = new WorkBatch(
            FormattableString.Invariant($"for the shelf {taken.Count}"),
            blanks,
            1,
            null,
            [.. BatchWork.Sittings(route, 1, route.FirstFinishingStep - 1, blanks, usual).Select(part => part.Work)]
        );
        var work = bench.Work with { Batches = [.. bench.Work.Batches, .. taken] };
        var plan = bench.Current with { Days = bench.Current.Days.Concat(days).ToDictionary(StringComparer.Ordinal) };
        if (Planner.PlaceEarliest(work, plan, run) is not { } found)
        {
            return [];
        }

        taken.Add(run);
        days[run.Id] = found;
        return [.. found.Select(facts.Today.AddDays)];
    }
}

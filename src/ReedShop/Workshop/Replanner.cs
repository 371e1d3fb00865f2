using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>Brings the stored plan up to the facts. Without new facts nothing moves.</summary>
public static class Replanner
{
    /// <summary>Search rounds of one replan: enough for a full bench, a blink for an empty one.</summary>
    private static readonly PlanBudget Budget = new(Rounds: 400);

    public static void Replan(BenchFacts facts)
    {
        DueDays.Renew(facts);
        var again = Overlong.WithoutEvening(facts);
        var (bench, plan) = Planned(facts, again);
        var stranded = bench.Work.Batches.Where(batch => batch.LatestStart is not null && !Has(plan, batch)).ToArray();
        if (stranded.Length > 0)
        {
            (bench, plan) = Planned(facts, [.. again, .. stranded.Select(batch => batch.Id)]);
        }

        Store(facts, bench, PlanCheck.Kept(bench.Work, plan));
        facts.Again = Overlong.InPlan(facts);
    }

    private static (BenchWork Bench, Plan Plan) Planned(BenchFacts facts, HashSet<string> again)
    {
        var bench = BenchWork.Of(facts, again);
        return (bench, Planner.Replan(bench.Work, bench.Standing, Budget));
    }

    private static bool Has(Plan plan, WorkBatch batch) => plan.Days.ContainsKey(batch.Id);

    /// <summary>Writes a plan, whoever made it.</summary>
    public static void Store(BenchFacts facts, BenchWork bench, Plan plan)
    {
        var rows = facts.Sittings.ToDictionary(row => row.Id, StringComparer.Ordinal);
        foreach (var (batchId, days) in plan.Days)
        {
            var people = plan.People.GetValueOrDefault(batchId);
            for (var k = 0; k < days.Length; k++)
            {
                var row = Place(facts, rows, batchId, bench.Sittings[batchId][k], facts.Today.AddDays(days[k]));
                row.Helper = Persons.NameOf(facts.Shop, people?[k] ?? 0);
            }
        }

        foreach (var row in rows.Values)
        {
            facts.Remove(row);
        }

        facts.Key.FactsVersion = facts.Version;
        facts.Key.Day = facts.Today;
    }

    /// <summary>Batches that make way for a promise take their new days.</summary>
    public static void Move(BenchFacts facts, Plan moved)
    {
        var bench = BenchWork.Of(facts);
        foreach (var (batchId, days) in moved.Days)
        {
            var people = moved.People.GetValueOrDefault(batchId);
            for (var k = 0; k < days.Length; k++)
            {
                var id = BenchWork.SittingId(batchId, bench.Sittings[batchId][k]);
                var row = facts.Sittings.Single(row => row.Id == id);
                row.Day = facts.Today.AddDays(days[k]);
                row.Helper = Persons.NameOf(facts.Shop, people?[k] ?? 0);
            }
        }
    }

    private static PlannedSitting Place(
        BenchFacts facts,
        Dictionary<string, PlannedSitting> rows,
        string batchId,
        BenchSitting sitting,
        DateOnly day
    )
    {
        var id = BenchWork.SittingId(batchId, sitting);
        if (!rows.Remove(id, out var row))
        {
            row = new PlannedSitting
            {
                Id = id,
                BatchId = batchId,
                LastStep = sitting.LastStep,
                Part = sitting.Part,
            };
            facts.Add(row);
        }

        row.FirstStep = sitting.FirstStep;
        row.Blanks = sitting.Blanks;
        row.Minutes = sitting.Work.Minutes;
        row.Day = day;
        row.Pinned &= sitting.Work.PinnedDay is not null;
        return row;
    }
}

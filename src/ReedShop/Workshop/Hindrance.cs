using ReedShop.Planning.Scheduling;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Workshop;

/// <summary>Why a sitting cannot have the day the maker asks for, by the rule that forbids it, and which days it could.</summary>
internal static class Hindrance
{
    private const int DaysTried = 42;
    private const int DaysTold = 3;

    /// <param name="row">Pinned to the day that was asked for.</param>
    public static Refusal Of(BenchFacts facts, PlannedSitting row)
    {
        var why = Why(facts, row, BenchWork.Of(facts));
        var days = FreeDays(facts, row);
        return new Refusal(
            RefusalKind.RuleBroken,
            why,
            "date",
            days.Count == 0
                ? "no day of the next six weeks; more open hours, or other work moved first"
                : string.Join(" or ", days.Select(Words.DayToSend))
        );
    }

    /// <summary>The next days on which the batch finds its place. The row keeps the day it has.</summary>
    private static List<DateOnly> FreeDays(BenchFacts facts, PlannedSitting row)
    {
        var asked = row.Day;
        var free = new List<DateOnly>();
        for (var ahead = 1; ahead <= DaysTried && free.Count < DaysTold; ahead++)
        {
            row.Day = asked.AddDays(ahead);
            var bench = BenchWork.Of(facts);
            var others = bench.Current.Of(bench.Current.Days.Keys.Where(id => id != row.BatchId));
            var batch = bench.Work.Batches.Single(work => work.Id == row.BatchId);
            if (
                row.Day < facts.Today.AddDays(BenchWork.HorizonDays)
                && Planner.PlaceBest(bench.Work, others, batch) is not null
            )
            {
                free.Add(row.Day);
            }
        }

        row.Day = asked;
        return free;
    }

    private static string Why(BenchFacts facts, PlannedSitting row, BenchWork bench)
    {
        var (work, day) = (bench.Work, row.Day.DayNumber - facts.Today.DayNumber);
        var batch = work.Batches.Single(candidate => candidate.Id == row.BatchId);
        var at = bench.Sittings[row.BatchId].ToList().FindIndex(s => BenchWork.SittingId(row.BatchId, s) == row.Id);
        var first = batch.ReleaseDay + Enumerable.Range(0, at).Sum(batch.LeastNightsAfter);
        return Enumerable.Range(0, work.People).All(person => work.MinutesOf(person, day) == 0)
                ? $"The bench is closed on {Words.Day(row.Day)}."
            : day < first
                ? $"A night is missing: the blanks are not dry for it before {Words.Day(facts.Today.AddDays(first))}."
            : at == 0 && batch.LatestStart < day
                ? $"The blanks would rest past their most nights: they must be worked by {Words.Day(facts.Today.AddDays(batch.LatestStart.Value))}."
            : Crowded(facts, row, bench, batch, at, day);
    }

    /// <summary>With its other sittings as close as they may be, whatever else breaks is the bench or the rack.</summary>
    private static string Crowded(
        BenchFacts facts,
        PlannedSitting row,
        BenchWork bench,
        WorkBatch batch,
        int at,
        int day
    )
    {
        var days = new int[batch.Sittings.Count];
        days[at] = day;
        for (var k = at - 1; k >= 0; k--)
        {
            days[k] = days[k + 1] - batch.LeastNightsAfter(k);
        }

        for (var k = at + 1; k < days.Length; k++)
        {
            days[k] = days[k - 1] + batch.LeastNightsAfter(k - 1);
        }

        var others = bench.Current.Of(bench.Current.Days.Keys.Where(id => id != row.BatchId));
        var breaches = PlanRules.Check(bench.Work, others.With(row.BatchId, days));
        return breaches.FirstOrDefault(breach =>
                breach.Day == day && breach.Rule is PlanRule.OpenMinutes or PlanRule.MostBlanks
            )
                is { } full
                ? Said(full, Words.Day(row.Day))
            : breaches.FirstOrDefault(breach => breach.Rule == PlanRule.RackRoom) is { Day: { } night } rack
                ? Said(rack, Words.Day(facts.Today.AddDays(night)))
            : $"The sittings after it find no place: between {Words.Day(row.Day)} and the most nights of its steps the bench is closed or full.";
    }

    private static string Said(PlanBreach breach, string day) =>
        breach.Rule switch
        {
            PlanRule.OpenMinutes =>
                $"The bench is full on {day}: it would take {Words.Minutes(breach.Found)}, and {Words.Minutes(breach.Allowed)} are open.",
            PlanRule.MostBlanks =>
                $"Too many for {day}: {Words.Blanks(breach.Found)} of that step, and lips or hands last for {Words.Number(breach.Allowed)}.",
            _ =>
                $"The rack is full in the night after {day}: {Words.Blanks(breach.Found)} where {Words.Number(breach.Allowed)} have room.",
        };
}

using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>The facts as the planner reads them, with the sittings each batch still has. Day 0 is today.</summary>
public sealed record BenchWork(
    Workload Work,
    Plan Standing,
    IReadOnlyDictionary<string, IReadOnlyList<BenchSitting>> Sittings
)
{
    /// <summary>Ten months ahead: longer than any order waits, short enough to plan in a blink.</summary>
    public const int HorizonDays = 300;

    /// <summary>
    /// The standing plan as far as it can still be done: batches with a day that has passed undone wait for new days.
    /// </summary>
    public Plan Current { get; } =
        new(
            Standing
                .Days.Where(days => days.Value.All(day => day >= 0))
                .ToDictionary(days => days.Key, days => days.Value, StringComparer.Ordinal)
        )
        {
            People = Standing.People,
        };

    /// <summary>With the repeats that the stored plan has.</summary>
    public static BenchWork Of(BenchFacts facts) => Of(facts, facts.Again);

    /// <param name="again">Batches that are soaked and have their night once more before they go on.</param>
    public static BenchWork Of(BenchFacts facts, IReadOnlySet<string> again)
    {
        var usual = facts.Shop.Bench.UsualMinutes(facts.Today);
        var batches = facts.OpenBatches.Where(batch => facts.Models.ContainsKey(batch.Model)).ToArray();
        var rows = facts.Sittings.ToDictionary(row => row.Id, StringComparer.Ordinal);
        var sittings = batches.ToDictionary(
            batch => batch.Id,
            batch => Pinned(facts, batch, rows, Left(facts, batch, usual, again)),
            StringComparer.Ordinal
        );
        var routes = facts.Models.Values.Select(model => model.Route).ToArray();
        var work = new Workload(
            OpenMinutes(facts, facts.Shop.Bench, null),
            facts.Shop.RackBlanks,
            BatchWork.SetUpMinutes(routes),
            [.. batches.Select(batch => WorkOf(facts, batch, sittings[batch.Id], again))],
            facts.Shop.RackCharge
        )
        {
            Helpers = [.. facts.Shop.Helpers.Select(helper => OpenMinutes(facts, helper.Bench, helper.Name))],
            Spans = Spans.Of(facts.Shop.Calendars(), facts.Today, HorizonDays),
            MostBlanks = BatchWork.MostBlanks(routes),
            DoneToday = facts.BlanksWorkedToday(),
        };
        return new BenchWork(work, StandingPlan(facts, batches, rows, sittings), sittings);
    }

    /// <summary>What one person has on each day, less what they worked today.</summary>
    private static int[] OpenMinutes(BenchFacts facts, BenchCalendar hours, string? helper)
    {
        var open = hours.OpenMinutes(facts.Today, HorizonDays);
        open[0] = Math.Max(0, open[0] - facts.MinutesWorkedToday(helper));
        return open;
    }

    /// <summary>The day the last night of a batch is over in a plan, counted from today; null when it has no place.</summary>
    public int? FinishDay(Plan plan, string batchId) =>
        plan.Days.TryGetValue(batchId, out var days) && days.Length > 0
            ? days[^1] + Sittings[batchId][^1].Work.Nights
            : null;

    public static string SittingId(string batchId, BenchSitting sitting) =>
        PlannedSitting.IdOf(batchId, sitting.LastStep, sitting.Part);

    private static IReadOnlyList<BenchSitting> Left(
        BenchFacts facts,
        Batch batch,
        int usualMinutes,
        IReadOnlySet<string> again
    )
    {
        var route = facts.Models[batch.Model].Route;
        var first = again.Contains(batch.Id) ? route.RepeatStep(batch.NextStep) : batch.NextStep;
        return BatchWork.Sittings(route, first, batch.LastStep, batch.Blanks, usualMinutes);
    }

    private static IReadOnlyList<BenchSitting> Pinned(
        BenchFacts facts,
        Batch batch,
        Dictionary<string, PlannedSitting> rows,
        IReadOnlyList<BenchSitting> sittings
    ) =>
        [
            .. sittings.Select(sitting =>
                rows.GetValueOrDefault(SittingId(batch.Id, sitting)) is { Pinned: true } row && row.Day >= facts.Today
                    ? sitting with
                    {
                        Work = sitting.Work with { PinnedDay = DaysFromToday(facts, row.Day) },
                    }
                    : sitting
            ),
        ];

    private static WorkBatch WorkOf(
        BenchFacts facts,
        Batch batch,
        IReadOnlyList<BenchSitting> sittings,
        IReadOnlySet<string> again
    )
    {
        var due = facts.PegsOn(batch.Root).Select(peg => (DateOnly?)facts.OrderOf(peg).FinishBy).Min();
        return new WorkBatch(
            batch.Id,
            batch.Blanks,
            Math.Max(0, DaysFromToday(facts, FirstDay(facts, batch))),
            due is { } day ? Math.Max(0, DaysFromToday(facts, day)) : null,
            [.. sittings.Select(sitting => sitting.Work)],
            OnRack: batch.Stage == BatchStage.OnBench && batch.LastWorkedOn is not null,
            LatestStart: !again.Contains(batch.Id) && Overlong.LastDay(facts, batch) is { } last
                ? DaysFromToday(facts, last)
                : null
        );
    }

    /// <summary>The first day the next step may be done: after the nights the last step asks for, and the damp ones.</summary>
    private static DateOnly FirstDay(BenchFacts facts, Batch batch)
    {
        var free = batch.NotBefore ?? facts.Today;
        if (batch.LastWorkedOn is not { } worked || batch.NextStep == 1)
        {
            return free;
        }

        var dry = facts.Models[batch.Model].Route[batch.NextStep - 1].Then as Follow.Dry;
        var dried = Spans.DriedOn(
            facts.Shop.Calendars(),
            worked,
            (dry?.Nights ?? 0) + batch.DampNights,
            dry?.LeastHours ?? 0
        );
        return dried > free ? dried : free;
    }

    /// <summary>
    /// The stored days of batches whose every sitting has one. A day that has passed undone is negative: the recovery
    /// rule makes it up before others.
    /// </summary>
    private static Plan StandingPlan(
        BenchFacts facts,
        IEnumerable<Batch> batches,
        Dictionary<string, PlannedSitting> rows,
        Dictionary<string, IReadOnlyList<BenchSitting>> sittings
    )
    {
        var days = new Dictionary<string, int[]>(StringComparer.Ordinal);
        var people = new Dictionary<string, int[]>(StringComparer.Ordinal);
        foreach (var batch in batches)
        {
            var found = sittings[batch.Id].Select(sitting => rows.GetValueOrDefault(SittingId(batch.Id, sitting)));
            if (found.All(row => row is not null))
            {
                days[batch.Id] = [.. found.Select(row => DaysFromToday(facts, row!.Day))];
                people[batch.Id] = [.. found.Select(row => Persons.NumberOf(facts.Shop, row!))];
            }
        }

        return facts.Shop.Helpers.Count == 0 ? new Plan(days) : new Plan(days) { People = people };
    }

    private static int DaysFromToday(BenchFacts facts, DateOnly day) => day.DayNumber - facts.Today.DayNumber;
}

using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>The week as the work is: days, the nights between them, and the batches that run through both.</summary>
public sealed class WeekReader(FactsReader reader, BatchStore batches, Replans replans)
{
    private const int DaysShown = 7;

    public async Task<Result<WeekView>> Read(DateOnly? from, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var facts = read.Value;
        if (from is { } asked && ShownDays.Fault(facts, asked) is { } fault)
        {
            return fault;
        }

        var first = from ?? Monday(facts.Today);
        var bench = BenchWork.Of(facts);
        var records = new List<StepRecord>();
        for (var day = first; day < first.AddDays(DaysShown); day = day.AddDays(1))
        {
            records.AddRange(await batches.RecordsOn(day, cancel));
        }

        var byBatch = records.ToLookup(record => record.BatchId, StringComparer.Ordinal);

        return new WeekView(
            first,
            facts.Today,
            facts.Shop.RackBlanks,
            await replans.IsOutdated(cancel),
            Drying(facts, first.AddDays(-1), byBatch),
            [.. Enumerable.Range(0, DaysShown).Select(ahead => Day(facts, first.AddDays(ahead), byBatch))],
            [.. facts.OpenBatches.Select(batch => Batch(facts, bench, batch))],
            [.. facts.OpenBatches.Where(b => bench.FinishDay(bench.Current, b.Id) is null).Select(b => b.Number)]
        )
        {
            Helpers = [.. facts.Shop.Helpers.Select(helper => helper.Name)],
        };
    }

    private static DateOnly Monday(DateOnly day) => day.AddDays(-(((int)day.DayOfWeek + 6) % 7));

    private static WeekDay Day(BenchFacts facts, DateOnly day, ILookup<string, StepRecord> records)
    {
        var byId = facts.Batches.ToDictionary(batch => batch.Id, StringComparer.Ordinal);
        var sittings = facts.Sittings.Where(s => s.Day == day && byId.ContainsKey(s.BatchId)).ToArray();
        var setUps = sittings
            .GroupBy(sitting => Persons.NumberOf(facts.Shop, sitting))
            .Sum(own => SetUpMinutes(own.SelectMany(sitting => StepsOf(facts, byId[sitting.BatchId], sitting))));
        return new WeekDay(
            day,
            facts.Shop.OpenMinutes(day),
            sittings.Sum(sitting => sitting.Minutes) + setUps,
            facts.Shop.OtherDays.FirstOrDefault(other => other.Date == day)?.Reason,
            [
                .. sittings.Select(sitting =>
                    SittingView.Of(
                        sitting,
                        byId[sitting.BatchId],
                        facts.Models[byId[sitting.BatchId].Model],
                        Persons.NameOf(facts.Shop, sitting)
                    )
                ),
            ],
            [
                .. facts
                    .OpenBatches.SelectMany(batch => records[batch.Id].Where(record => record.Day == day))
                    .OrderBy(record => record.EndedUtc)
                    .Select(record => Done(facts, byId[record.BatchId], record)),
            ],
            Drying(facts, day, records)
        );
    }

    /// <summary>What one person lays out on a day.</summary>
    private static int SetUpMinutes(IEnumerable<Step> steps) =>
        steps.GroupBy(step => step.SetUp.Key, StringComparer.Ordinal).Sum(same => same.Max(step => step.SetUp.Minutes));

    private static DoneView Done(BenchFacts facts, Batch batch, StepRecord record) =>
        new(
            batch.Id,
            batch.Number,
            facts.Models[batch.Model].Route[record.Step].Name,
            record.In,
            record.Passed,
            record.Redo,
            record.Rejected,
            record.Minutes
        );

    private static IReadOnlyList<DryingView> Drying(
        BenchFacts facts,
        DateOnly night,
        ILookup<string, StepRecord> records
    ) =>
        [
            .. facts
                .OpenBatches.Where(batch => LiesOnRack(facts, batch, night, records[batch.Id]))
                .Select(batch => Drying(batch, night, records[batch.Id])),
        ];

    /// <summary>As many as were alive that night: blanks rejected later lay on the rack too.</summary>
    private static DryingView Drying(Batch batch, DateOnly night, IEnumerable<StepRecord> records) =>
        new(batch.Id, batch.Number, records.FirstOrDefault(record => record.Day > night)?.In ?? batch.Blanks);

    private static IEnumerable<Step> StepsOf(BenchFacts facts, Batch batch, PlannedSitting sitting) =>
        facts
            .Models[batch.Model]
            .Route.Steps.Skip(sitting.FirstStep - 1)
            .Take(sitting.LastStep - sitting.FirstStep + 1);

    /// <summary>From its first sitting, done or planned, until the day of its last one.</summary>
    private static bool LiesOnRack(BenchFacts facts, Batch batch, DateOnly night, IEnumerable<StepRecord> records)
    {
        var planned = facts.Sittings.Where(sitting => sitting.BatchId == batch.Id).Select(s => s.Day).ToArray();
        DateOnly?[] worked =
        [
            batch.LastWorkedOn,
            .. records.SelectMany(record => new[] { record.Before.LastWorkedOn, record.Day }),
        ];
        var begun = worked.Min() ?? (planned.Length > 0 ? planned.Min() : DateOnly.MaxValue);
        return planned.Length > 0 && begun <= night && night < planned.Max();
    }

    private static WeekBatch Batch(BenchFacts facts, BenchWork bench, Batch batch)
    {
        var finish = bench.FinishDay(bench.Current, batch.Id) is { } day ? facts.Today.AddDays(day) : (DateOnly?)null;
        var pegs = facts.PegsOn(batch.Root);
        return new WeekBatch(
            batch.Id,
            batch.Number,
            batch.Model,
            batch.Aim,
            batch.Blanks,
            finish,
            [.. pegs.Select(peg => PegView.Of(peg, facts.OrderOf(peg)))],
            pegs.Count == 0 ? null : Punctuality.Of(facts, facts.OrderOf(pegs[0]), finish)
        );
    }
}

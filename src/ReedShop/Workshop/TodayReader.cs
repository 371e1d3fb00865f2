using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Workshop;

/// <summary>A batch at the bench with what is needed to record its next step.</summary>
/// <param name="Check">What is counted after the next step.</param>
/// <param name="Strengths">What its reeds may be sorted into; none without an aim.</param>
/// <param name="Measure">What a gauge should read after the next step, where one is taken.</param>
/// <param name="Unit">What the maker's gauge reads in.</param>
/// <param name="Again">Its blanks have lain past their most nights: the next step is one they had before.</param>
public sealed record BenchBatch(
    BatchView Batch,
    Check Check,
    bool MayGrade,
    IReadOnlyList<Strength> Strengths,
    IReadOnlyList<PegView> MadeFor,
    string? Promise,
    bool Again,
    AlarmsView? Alarms,
    Measure? Measure,
    LengthUnit Unit
);

/// <summary>A step recorded on the day.</summary>
public sealed record DoneToday(string Batch, string BatchNumber, StepRecordView Step, bool MayUndo);

/// <summary>A batch that dried on the rack last night.</summary>
/// <param name="Noted">Last night was already noted as damp.</param>
public sealed record RackBatch(
    string Batch,
    string BatchNumber,
    string Model,
    int Blanks,
    DateOnly Since,
    DateOnly LastNight,
    int DampNights,
    bool Noted
);

/// <summary>Everything the maker needs at the bench on one day.</summary>
/// <param name="NotListed">Batches planned for the day for which the hours left have no line.</param>
public sealed record TodayView(
    DayView List,
    DateOnly Today,
    bool Outdated,
    IReadOnlyDictionary<string, BenchBatch> Batches,
    IReadOnlyList<string> NotListed,
    IReadOnlyList<DoneToday> Done,
    IReadOnlyList<RackBatch> OnRack
)
{
    public bool IsToday => List.Date == Today;
}

/// <summary>The day list with its batches, what is done already and what lies on the rack.</summary>
public sealed class TodayReader(FactsReader reader, BatchStore batches, Replans replans)
{
    public async Task<Result<TodayView>> Read(DateOnly? date, CancellationToken cancel)
    {
        var read = await reader.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var facts = read.Value;
        if (date is { } asked && ShownDays.Fault(facts, asked) is { } fault)
        {
            return fault;
        }

        var list = DayReader.Of(facts, date ?? facts.Today);
        var planned = facts.Sittings.Where(sitting => sitting.Day == list.Date).Select(sitting => sitting.BatchId);
        var listed = list.AllLines.Select(line => line.Batch).ToHashSet(StringComparer.Ordinal);
        var bench = BenchWork.Of(facts);
        var open = facts.OpenBatches.ToDictionary(
            batch => batch.Id,
            batch => OnBench(facts, bench, batch),
            StringComparer.Ordinal
        );
        return new TodayView(
            list,
            facts.Today,
            await replans.IsOutdated(cancel),
            open,
            [.. planned.Distinct().Where(batch => open.ContainsKey(batch) && !listed.Contains(batch))],
            await Done(facts, list.Date, cancel),
            list.Date == facts.Today ? await OnRack(facts, cancel) : []
        );
    }

    private static BenchBatch OnBench(BenchFacts facts, BenchWork bench, Batch batch)
    {
        var model = facts.Models[batch.Model];
        var finish = bench.FinishDay(bench.Current, batch.Id) is { } day ? facts.Today.AddDays(day) : (DateOnly?)null;
        var pegs = facts.PegsOn(batch.Root);
        var next = Overlong.RepeatStep(facts, batch) ?? batch.NextStep;
        return new BenchBatch(
            BatchView.Of(batch, model) with
            {
                NextStep = next,
                NextStepName = next > batch.LastStep ? null : model.Route[next].Name,
            },
            next > batch.LastStep ? Check.None : model.Route[next].Check,
            MayGrade(batch, model.Route),
            batch.Aim is { } aim ? BenchForms.StrengthsAround(aim, facts.Shop.GradeSteps) : [],
            [.. pegs.Select(peg => PegView.Of(peg, facts.OrderOf(peg)))],
            pegs.Count == 0 ? null : Punctuality.Of(facts, facts.OrderOf(pegs[0]), finish),
            next < batch.NextStep,
            Alarms.Of(facts, batch.Root),
            next > batch.LastStep ? null : model.Route[next].Measure,
            facts.Shop.LengthUnit
        );
    }

    private static bool MayGrade(Batch batch, ReedRoute route) =>
        batch.Aim is not null && batch.Stage == BatchStage.OnBench && batch.NextStep >= route.FirstFinishingStep;

    private async Task<IReadOnlyList<DoneToday>> Done(BenchFacts facts, DateOnly day, CancellationToken cancel)
    {
        var done = new List<DoneToday>();
        foreach (var record in (await batches.RecordsOn(day, cancel)).OrderBy(record => record.EndedUtc))
        {
            if (
                await batches.Find(record.BatchId, cancel) is { } batch
                && facts.Models.GetValueOrDefault(batch.Model) is { } model
            )
            {
                var isLast = batch.NextStep == record.Step + 1 && batch.Stage is not BatchStage.Graded;
                done.Add(new DoneToday(batch.Id, batch.Number, StepRecordView.Of(record, model), isLast));
            }
        }

        return done;
    }

    private async Task<IReadOnlyList<RackBatch>> OnRack(BenchFacts facts, CancellationToken cancel)
    {
        var lastNight = facts.Today.AddDays(-1);
        var rack = new List<RackBatch>();
        foreach (var batch in facts.OpenBatches.Where(batch => IsDrying(facts, batch, lastNight)))
        {
            rack.Add(
                new RackBatch(
                    batch.Id,
                    batch.Number,
                    batch.Model,
                    batch.Blanks,
                    batch.LastWorkedOn!.Value,
                    lastNight,
                    batch.DampNights,
                    await batches.HasDampNight(batch.Id, lastNight, cancel)
                )
            );
        }

        return rack;
    }

    /// <summary>Blanks that rested longer than their nights are dry for certain.</summary>
    private static bool IsDrying(BenchFacts facts, Batch batch, DateOnly night) =>
        batch is { Stage: BatchStage.OnBench, NextStep: > 1, LastWorkedOn: { } worked }
        && worked <= night
        && facts.Models[batch.Model].Route[batch.NextStep - 1].Then is Follow.Dry dry
        && worked.AddDays(dry.Nights + batch.DampNights) >= facts.Today;
}

using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>What the maker counted after a step. All counts together are the blanks that came in.</summary>
/// <param name="Passed">Kept: they go on.</param>
/// <param name="Redo">Again: they go back through the step and its night.</param>
/// <param name="Carried">They did not get their turn today and wait for another evening.</param>
/// <param name="Minutes">Hands-on minutes it took, where the maker noted them.</param>
/// <param name="Measured">What a gauge read on some of the blanks, in the shop's unit of length.</param>
public sealed record StepCounts(
    int Passed,
    IReadOnlyList<RejectCount> Rejected,
    int Redo = 0,
    int Carried = 0,
    int? Minutes = null,
    IReadOnlyList<decimal>? Measured = null
)
{
    /// <summary>Blanks that lay too long are all worked again; nobody spent a minute on finding that out.</summary>
    public static StepCounts SentAgain(int blanks) => new(0, [], Redo: blanks, Minutes: 0);

    /// <summary>Wide enough for whatever numbers were sent.</summary>
    public long Sum() => (long)Passed + Redo + Carried + Rejected.Sum(reject => (long)reject.Count);

    public bool SameAs(StepRecord record) =>
        Passed == record.Passed
        && Redo == record.Redo
        && Carried == record.Carried
        && Minutes == record.Minutes
        && Measuring
            .Read(Measured, record.Measured is [var first, ..] ? first.Unit : LengthUnit.Millimetre)
            .SequenceEqual(record.Measured)
        && Rejected.OrderBy(r => r.Reason).SequenceEqual(record.Rejected.OrderBy(r => r.Reason));
}

/// <summary>Writes down what happened at the bench.</summary>
public sealed class Recording(BatchStore batches, MakeUp makeUp, JournalStore journal)
{
    private const int MostMinutes = 24 * 60;

    /// <summary>
    /// Records the next step of a batch. The same counts for a step already recorded give the first answer again;
    /// other counts are refused, because a correction is another request.
    /// </summary>
    public async Task<Result<StepRecord>> Record(
        BenchFacts facts,
        Batch batch,
        int step,
        StepCounts counts,
        CancellationToken cancel
    )
    {
        if (Overlong.RepeatStep(facts, batch) == step)
        {
            var again = SendAgain(facts, batch, step);
            return Fault(facts, again, step, counts) is { } wrong ? wrong : Write(facts, again, counts);
        }

        var records = await batches.Records(batch.Id, cancel);
        var sent = records.LastOrDefault(record => record.SentAgain);
        var repeated = sent is null ? [] : await batches.Records(sent.Trays[0], cancel);
        if (repeated.Concat(records).FirstOrDefault(record => record.Step == step) is { } first)
        {
            return counts.SameAs(first) ? first : AlreadyRecorded(facts.Models[batch.Model].Route[step].Name);
        }

        return Fault(facts, batch, step, counts) is { } fault ? fault : Write(facts, batch, counts);
    }

    /// <summary>
    /// Blanks that lay past their most nights are all worked again, as if they had failed at the step that was next.
    /// Their tray takes over the evenings planned for them.
    /// </summary>
    private Batch SendAgain(BenchFacts facts, Batch batch, int step)
    {
        var planned = facts.Sittings.Where(sitting => sitting.BatchId == batch.Id).ToArray();
        var sent = Write(facts, batch, StepCounts.SentAgain(batch.Blanks), sentAgain: true);
        var tray = facts.Batches.Single(other => other.Id == sent.Trays[0]);
        tray.NextStep = step;
        foreach (var sitting in planned)
        {
            facts.Add(sitting.For(tray.Id));
        }

        return tray;
    }

    internal StepRecord Write(BenchFacts facts, Batch batch, StepCounts counts, bool sentAgain = false)
    {
        var record = NewRecord(facts, batch, counts, sentAgain);
        batches.Add(record);
        facts.RecordsToday.Add((record, batch.Model));
        batch.Blanks = counts.Passed;
        batch.NextStep++;
        batch.RedoOf = batch.RedoOf >= batch.NextStep ? batch.RedoOf : null;
        batch.LastWorkedOn = facts.Today;
        batch.LastEndedUtc = facts.NowUtc;
        batch.DampNights = 0;
        batch.Stage = StageAfter(batch);
        batch.Version++;
        facts.Again.Remove(batch.Id);
        if (batch.Stage == BatchStage.Shelved)
        {
            facts.MoveShelf(batch.Model, batch.CaneLot ?? "", batch.Blanks, $"batch {batch.Number} shelved", batch.Id);
        }

        StartOrders(facts, batch.Root);
        CoverShortage(facts, batch.Root);
        journal.Write(
            "owner",
            $"batch {batch.Number}",
            Said(facts.Models[batch.Model].Route[record.Step].Name, record)
        );
        return record;
    }

    /// <summary>Fewer blanks alive than reeds owed is a certain shortage, so the extra batch need not wait for the grading.</summary>
    internal void CoverShortage(BenchFacts facts, string root)
    {
        var alive = facts.OpenBatches.Where(tray => tray.Root == root).Sum(tray => tray.Blanks);
        var owed = facts.PegsOn(root).Sum(peg => peg.Quantity);
        if (owed > alive)
        {
            makeUp.ForShortage(facts, root, owed - alive);
        }
    }

    private static Refusal AlreadyRecorded(string step) =>
        new(
            RefusalKind.KeyReused,
            $"“{step}” was recorded with other counts.",
            "step",
            "the same counts again; to mend them, "
                + Words.Named("undo the step on the page of its batch and record it once more", "POST to /correct")
        );

    private static Refusal? Fault(BenchFacts facts, Batch batch, int step, StepCounts counts)
    {
        if (!batch.IsOpen || step != batch.NextStep)
        {
            return Refusal.Stage(
                $"This step of batch {batch.Number} cannot be recorded now.",
                batch.IsOpen
                    ? Words.Named(
                        $"{facts.Models[batch.Model].Route[batch.NextStep].Name}, the step it stands at",
                        $"step {batch.NextStep}"
                    )
                    : "a batch that is planned or on the bench"
            );
        }

        var worked = facts.Models[batch.Model].Route[step];
        return worked.Check == Check.Graded
            ? Refusal.Stage(
                "This step sorts the reeds into strengths.",
                Words.Named("how many reeds there are of each strength", "POST to /grades")
            )
            : CountFault(batch.Blanks, counts)
                ?? Measuring.Fault(worked, counts.Measured, facts.Shop.LengthUnit, batch.Blanks);
    }

    internal static Refusal? CountFault(int blanksIn, StepCounts counts) =>
        counts.Passed < 0 || counts.Redo < 0 || counts.Carried < 0 ? SumFault(blanksIn, counts.Sum())
        : counts.Minutes is < 0 or > MostMinutes
            ? Refusal.Invalid("minutes", "The minutes cannot be used.", "0 to 1440")
        : CountFault(blanksIn, (long)counts.Passed + counts.Redo + counts.Carried, counts.Rejected);

    /// <summary>Kept and rejected blanks must be those that came in, whatever numbers were sent.</summary>
    internal static Refusal? CountFault(int blanksIn, long kept, IReadOnlyList<RejectCount> rejected)
    {
        var sum = kept + rejected.Sum(reject => (long)reject.Count);
        return sum != blanksIn || rejected.Any(reject => reject.Count < 0) ? SumFault(blanksIn, sum)
            : rejected.Any(reject => !RejectCount.Reasons.Contains(reject.Reason))
                ? Refusal.Invalid("rejected", "A reason is unknown.", string.Join(", ", RejectCount.Reasons))
            : null;
    }

    private static Refusal SumFault(int blanksIn, long sum) =>
        Refusal.Invalid(
            "passed",
            $"The counts add up to {sum}, but {blanksIn} blanks came in.",
            Words.Named("kept, again, left for another day and rejected", "passed, redo, carried and rejected")
                + $" of 0 or more that add up to {blanksIn}"
        );

    private static StepRecord NewRecord(BenchFacts facts, Batch batch, StepCounts counts, bool sentAgain) =>
        new()
        {
            BatchId = batch.Id,
            Root = batch.Root,
            Step = batch.NextStep,
            Day = facts.Today,
            EndedUtc = facts.NowUtc,
            In = batch.Blanks,
            Passed = counts.Passed,
            Redo = counts.Redo,
            Carried = counts.Carried,
            Rejected = counts.Rejected,
            Minutes = counts.Minutes,
            Measured = Measuring.Read(counts.Measured, facts.Shop.LengthUnit),
            UsualMinutes = facts
                .Models[batch.Model]
                .Route[batch.NextStep]
                .HandsOnMinutes(batch.Blanks - counts.Carried),
            SentAgain = sentAgain,
            Helper = Doer(facts, batch),
            RedoOf = batch.RedoOf,
            Before = new BatchBefore(
                batch.Stage,
                batch.NextStep,
                batch.Blanks,
                batch.LastWorkedOn,
                batch.LastEndedUtc,
                batch.DampNights,
                batch.RedoOf
            ),
            Trays = [.. NewTrays(facts, batch, counts).Select(tray => tray.Id)],
        };

    /// <summary>Who was to do the next step.</summary>
    private static string? Doer(BenchFacts facts, Batch batch) =>
        facts.Sittings.FirstOrDefault(sitting =>
            sitting.BatchId == batch.Id && sitting.FirstStep <= batch.NextStep && sitting.LastStep >= batch.NextStep
        )
            is { } planned
            ? Persons.NameOf(facts.Shop, planned)
            : null;

    private static List<Batch> NewTrays(BenchFacts facts, Batch batch, StepCounts counts)
    {
        var trays = new List<Batch>();
        if (counts.Redo > 0)
        {
            var again = Trays.SplitOff(facts, batch, counts.Redo);
            again.RedoOf = Math.Max(batch.RedoOf ?? 0, batch.NextStep);
            again.NextStep = facts.Models[batch.Model].Route.RedoStep(batch.NextStep);
            again.LastWorkedOn = null;
            again.NotBefore = facts.Today;
            again.Stage = BatchStage.OnBench;
            trays.Add(again);
        }

        if (counts.Carried > 0)
        {
            var carried = Trays.SplitOff(facts, batch, counts.Carried);
            carried.NotBefore = facts.Today.AddDays(1);
            trays.Add(carried);
        }

        return trays;
    }

    private static BatchStage StageAfter(Batch batch) =>
        batch switch
        {
            { Blanks: 0 } => BatchStage.Emptied,
            _ when batch.NextStep > batch.LastStep => batch.Aim is null ? BatchStage.Shelved : BatchStage.Graded,
            _ => BatchStage.OnBench,
        };

    private static void StartOrders(BenchFacts facts, string root)
    {
        foreach (var order in facts.PegsOn(root).Select(facts.OrderOf).Distinct())
        {
            Pegging.MarkBegun(facts, order);
        }
    }

    private static string Said(string step, StepRecord record)
    {
        var rejected = string.Join(", ", record.Rejected.Select(reject => $"{reject.Reason}, {reject.Count}"));
        var again = record.Redo > 0 ? $", again {record.Redo}" : "";
        var carried = record.Carried > 0 ? $", left for another day {record.Carried}" : "";
        return $"{step}: kept {record.Passed}{again}{carried}" + (rejected.Length > 0 ? $"; rejected: {rejected}" : "");
    }
}

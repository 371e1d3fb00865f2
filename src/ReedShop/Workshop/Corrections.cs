using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>Takes back or mends what was recorded.</summary>
public sealed class Corrections(BatchStore batches, Recording recording, JournalStore journal)
{
    /// <summary>Takes the last recorded step back, as long as no tray it made has gone on.</summary>
    public async Task<Result<Batch>> Undo(BenchFacts facts, Batch batch, CancellationToken cancel)
    {
        var records = await batches.Records(batch.Id, cancel);
        if (records.Count == 0 || batch.Stage is BatchStage.Graded or BatchStage.CalledOff)
        {
            return Refusal.Stage(
                $"Nothing of batch {batch.Number} can be taken back.",
                "a batch with a recorded step that is not yet graded; after that, count the drawer"
            );
        }

        var last = records[^1];
        if (batch.Blanks != last.Passed || facts.Models[batch.Model].Route[last.Step].Check == Check.Graded)
        {
            return Refusal.Stage(
                $"Since {facts.Models[batch.Model].Route[last.Step].Name} batch {batch.Number} was split, merged or graded.",
                "a batch with the blanks its last step kept; otherwise a correction of the count"
            );
        }

        if (await TraysFault(facts, batch, last, cancel) is { } fault)
        {
            return fault;
        }

        foreach (var night in await batches.DampNightsFrom(batch.Id, last.Day, cancel))
        {
            batches.Remove(night);
        }

        return TakeBack(facts, batch, last);
    }

    /// <summary>
    /// Mends the counts of a step. Blanks move between kept and rejected, and the steps since then are mended along
    /// with it. Blanks sent again or carried are on trays of their own: for those, undo the step.
    /// </summary>
    public async Task<Result<StepRecord>> Correct(
        BenchFacts facts,
        Batch batch,
        int step,
        StepCounts counts,
        CancellationToken cancel
    )
    {
        var records = await batches.Records(batch.Id, cancel);
        var index = records.FindIndex(record => record.Step == step);
        if (index < 0 || batch.Stage == BatchStage.Graded)
        {
            return Refusal.Stage($"Step {step} cannot be corrected.", "a recorded step of a batch not yet graded");
        }

        var fault =
            Recording.CountFault(records[index].In, counts)
            ?? Measuring.Fault(
                facts.Models[batch.Model].Route[step],
                counts.Measured,
                facts.Shop.LengthUnit,
                records[index].In
            );
        if (fault is not null)
        {
            return fault;
        }

        var mended = Mend(facts, batch, records[index..], counts);
        if (!mended.IsRefused && counts.Measured is not null)
        {
            mended.Value.Measured = Measuring.Read(counts.Measured, facts.Shop.LengthUnit);
        }

        return mended;
    }

    private Result<StepRecord> Mend(BenchFacts facts, Batch batch, List<StepRecord> since, StepCounts counts)
    {
        var record = since[0];
        var change = counts.Passed - record.Passed;
        if ((counts.Redo, counts.Carried) != (record.Redo, record.Carried))
        {
            return Refusal.Invalid(
                "redo",
                "Blanks that go again or were left for another day are on a tray of their own by now.",
                $"{Words.Named("again", "redo")} {record.Redo} and {Words.Named("left for another day", "carried")} {record.Carried}, or undo the step and record it once more"
            );
        }

        if (batch.Stage == BatchStage.Emptied && batch.NextStep > batch.LastStep)
        {
            return Refusal.Stage("The batch ended with no blank left.", "undo of its last step, then the right counts");
        }

        if (batch.Stage == BatchStage.Shelved && facts.Shelf[(batch.Model, batch.CaneLot ?? "")] + change < 0)
        {
            return Refusal.Stage("Its blanks have left the shelf.", "a count of the shelf");
        }

        if (batch.Blanks + change < 0 || since.Skip(1).Any(later => later.Passed + change < 0))
        {
            return Refusal.Invalid(
                "passed",
                "Later steps kept more blanks than that.",
                $"at least {record.Passed - batch.Blanks}"
            );
        }

        record.Passed = counts.Passed;
        record.Rejected = counts.Rejected;
        record.Minutes = counts.Minutes;
        foreach (var (today, _) in facts.RecordsToday.Where(done => done.Record.Id == record.Id))
        {
            today.Minutes = counts.Minutes;
        }

        foreach (var later in since.Skip(1))
        {
            later.In += change;
            later.Passed += change;
        }

        if (batch.Stage == BatchStage.Shelved)
        {
            facts.MoveShelf(batch.Model, batch.CaneLot ?? "", change, $"batch {batch.Number} corrected", batch.Id);
        }

        batch.Blanks += change;
        batch.Stage =
            batch.Blanks == 0 ? BatchStage.Emptied
            : batch.Stage == BatchStage.Emptied ? BatchStage.OnBench
            : batch.Stage;
        batch.Version++;
        recording.CoverShortage(facts, batch.Root);
        journal.Write(
            "owner",
            $"batch {batch.Number}",
            $"{facts.Models[batch.Model].Route[record.Step].Name} corrected: kept {record.Passed}"
        );
        return record;
    }

    private async Task<Refusal?> TraysFault(BenchFacts facts, Batch batch, StepRecord last, CancellationToken cancel)
    {
        foreach (var id in last.Trays)
        {
            var tray = await batches.Find(id, cancel);
            if (
                tray is null
                || !tray.IsOpen
                || tray.Blanks != tray.Started
                || (await batches.Records(id, cancel)).Count > 0
            )
            {
                return Refusal.Stage(
                    $"A tray that came of {facts.Models[batch.Model].Route[last.Step].Name} of batch {batch.Number} has gone on.",
                    $"undo of tray {tray?.Number} first"
                );
            }
        }

        return batch.Stage == BatchStage.Shelved && facts.Shelf[(batch.Model, batch.CaneLot ?? "")] < batch.Blanks
            ? Refusal.Stage("Its blanks have left the shelf.", "a correction of the count")
            : null;
    }

    private Batch TakeBack(BenchFacts facts, Batch batch, StepRecord last)
    {
        if (batch.Stage == BatchStage.Shelved)
        {
            facts.MoveShelf(
                batch.Model,
                batch.CaneLot ?? "",
                -batch.Blanks,
                $"batch {batch.Number} back on the bench",
                batch.Id
            );
        }

        // The rows stay, so that no number is ever written on two trays.
        foreach (var tray in facts.Batches.Where(tray => last.Trays.Contains(tray.Id)))
        {
            (tray.Stage, tray.Blanks) = (BatchStage.CalledOff, 0);
            tray.Version++;
        }

        var before = last.Before;
        (batch.Stage, batch.NextStep, batch.Blanks) = (before.Stage, before.NextStep, before.Blanks);
        (batch.LastWorkedOn, batch.LastEndedUtc) = (before.LastWorkedOn, before.LastEndedUtc);
        (batch.DampNights, batch.RedoOf) = (before.DampNights, before.RedoOf);
        batch.Version++;
        if (!facts.Batches.Contains(batch))
        {
            facts.Batches.Add(batch);
        }

        batches.Remove(last);
        facts.RecordsToday.RemoveAll(done => done.Record.Id == last.Id);
        journal.Write(
            "owner",
            $"batch {batch.Number}",
            $"{facts.Models[batch.Model].Route[last.Step].Name} taken back"
        );
        return batch;
    }
}

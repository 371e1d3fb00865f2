using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>Notes nights that left a batch damp: each adds one night before its next sitting.</summary>
public sealed class DampNights(BatchStore batches, JournalStore journal)
{
    public async Task<Result<Batch>> Note(BenchFacts facts, Batch batch, NightWish night, CancellationToken cancel)
    {
        if (Fault(facts, batch, night) is { } fault)
        {
            return fault;
        }

        if (await batches.HasDampNight(batch.Id, night.Date, cancel))
        {
            return batch;
        }

        batches.Add(new DampNight { BatchId = batch.Id, Date = night.Date });
        batch.DampNights++;
        batch.Version++;
        journal.Write("owner", $"batch {batch.Number}", $"still damp after the night of {night.Date:yyyy-MM-dd}");
        return batch;
    }

    private static Refusal? Fault(BenchFacts facts, Batch batch, NightWish night)
    {
        if (!night.Damp)
        {
            return Refusal.Invalid("damp", "A dry night needs no note.", "true");
        }

        if (
            batch.Stage != BatchStage.OnBench
            || batch.LastWorkedOn is not { } worked
            || facts.Models[batch.Model].Route[batch.NextStep - 1].Then is not Follow.Dry
        )
        {
            return Refusal.Stage($"Batch {batch.Number} is not drying.", "a batch on the rack");
        }

        return night.Date < worked || night.Date >= facts.Today
            ? Refusal.Invalid(
                "date",
                "The batch did not lie on the rack that night.",
                $"{Words.DayToSend(worked)} to {Words.DayToSend(facts.Today.AddDays(-1))}"
            )
            : null;
    }
}

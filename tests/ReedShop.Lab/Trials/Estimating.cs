using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>What the shop's own records say of its yields, read anew when they have changed.</summary>
internal sealed class Estimating(Book book)
{
    private readonly Dictionary<TrialBatch, (int Records, IReadOnlyList<StepCount> Counts)> counted = [];
    private readonly YieldSettings settings = new() { QuartersBetweenGrades = book.Premises.QuartersBetweenGrades };
    private YieldEstimates? known;
    private int version = -1;

    public YieldEstimates Now
    {
        get
        {
            if (known is null || version != book.HistoryVersion)
            {
                known = YieldEstimates.From(History(), book.Today, settings);
                version = book.HistoryVersion;
            }

            return known;
        }
    }

    private YieldHistory History() => new([.. book.Batches.SelectMany(Counts)], book.Grades);

    private IReadOnlyList<StepCount> Counts(TrialBatch batch)
    {
        if (!counted.TryGetValue(batch, out var last) || last.Records != batch.Records.Count || batch.Alive > 0)
        {
            // A step whose blanks still wait for another try would look as if it had lost them.
            var waiting = batch.Open.Max(tray => tray.RedoOf) ?? 0;
            var told = batch.Records.Where(record => record.Step > waiting);
            counted[batch] = last = (
                batch.Records.Count,
                BatchCounts.Of(told, batch.Route, batch.Model.Name, batch.Lot)
            );
        }

        return last.Counts;
    }
}

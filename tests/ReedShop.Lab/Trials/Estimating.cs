using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>What the shop's own records say of its yields.</summary>
internal sealed class Estimating(Book book)
{
    private const int WeekDays = 7;

    private readonly Dictionary<TrialBatch, (int Records, IReadOnlyList<StepCount> Counts)> counted = [];
    private readonly YieldSettings settings = new() { QuartersBetweenGrades = book.Premises.QuartersBetweenGrades };
    private YieldEstimates? known;
    private DateOnly readOn;
    private int records;

    /// <summary>From all that is recorded: what a promise is made from.</summary>
    public YieldEstimates Now => known is null || book.HistoryRecords > records ? Read() : known;

    /// <summary>
    /// From all that was recorded when a promise was last made, or a week ago. The service reads its records at every
    /// replan too, which would take a trial longer than all else; a due day hardly moves for one batch more.
    /// </summary>
    public YieldEstimates Lately => known is null || book.Today >= readOn.AddDays(WeekDays) ? Now : known;

    /// <summary>How often the records were read.</summary>
    public int Reads { get; private set; }

    /// <summary>Reads them now if another shop with the same records had done so.</summary>
    public void KeepUp(int reads)
    {
        if (Reads < reads)
        {
            Read();
        }
    }

    private YieldEstimates Read()
    {
        Reads++;
        (records, readOn) = (book.HistoryRecords, book.Today);
        return known = YieldEstimates.From(History(), book.Today, settings);
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

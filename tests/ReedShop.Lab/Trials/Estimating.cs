using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>
/// What the shop's own records say of its yields, read anew when they have changed.
/// The service does so at once; here they are read a week later unless they grew by a fifth, because no other part of a
/// trial takes as long.
/// </summary>
internal sealed class Estimating(Book book)
{
    private const int WeekDays = 7;
    private const double Growth = 1.2;

    private readonly Dictionary<TrialBatch, (int Records, IReadOnlyList<StepCount> Counts)> counted = [];
    private readonly YieldSettings settings = new() { QuartersBetweenGrades = book.Premises.QuartersBetweenGrades };
    private YieldEstimates? known;
    private DateOnly readOn;
    private int records;

    public YieldEstimates Now => known is null || IsOld() ? known = Read() : known;

    private bool IsOld() =>
        book.HistoryRecords > records
        && (book.Today >= readOn.AddDays(WeekDays) || book.HistoryRecords > Growth * records);

    private YieldEstimates Read()
    {
        (records, readOn) = (book.HistoryRecords, book.Today);
        return YieldEstimates.From(History(), book.Today, settings);
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

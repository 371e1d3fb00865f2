using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>
/// The yields as the imported history and our own records show them. Reading them takes a moment, so the last answer is
/// kept until a batch or a day makes it old.
/// </summary>
public sealed class EstimatesReader(
    PastStore past,
    BatchStore batches,
    MarkerStore markers,
    CatalogueStore catalogue,
    LastAnswer<EstimatesKey, YieldEstimates> kept
)
{
    public async Task<YieldEstimates> Read(ShopSettings shop, DateOnly today, CancellationToken cancel)
    {
        var marked = (await markers.All(cancel)).Select(marker => new YieldMarker(marker.Date, marker.Model)).ToArray();
        var key = new EstimatesKey(
            today,
            shop.YieldHalfLifeDays,
            shop.BeforeMarker,
            shop.GradeSteps,
            string.Join<YieldMarker>(';', marked),
            await past.StepCount(cancel),
            await past.GradeCount(cancel),
            await batches.FinalGradeCount(cancel),
            await batches.RecordsMark(cancel)
        );
        return kept.Find(key)
            ?? kept.Keep(
                key,
                YieldEstimates.From(
                    await History(marked, cancel),
                    today,
                    new YieldSettings
                    {
                        HalfLifeDays = shop.YieldHalfLifeDays,
                        BeforeMarker = shop.BeforeMarker,
                        QuartersBetweenGrades = shop.QuartersBetweenGrades,
                    }
                )
            );
    }

    private async Task<YieldHistory> History(YieldMarker[] marked, CancellationToken cancel)
    {
        var records = await batches.AllRecords(cancel);
        var finals = await batches.FinalGrades(cancel);
        var waiting = (await batches.Open(cancel)).Where(tray => tray.RedoOf is not null).ToLookup(tray => tray.Root);
        var pastSteps = await past.Steps(cancel);
        var pastGrades = await past.Grades(cancel);
        var routes = (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);
        var roots = (await batches.Roots(cancel)).ToDictionary(batch => batch.Id, StringComparer.Ordinal);
        var counts = records
            // A step whose blanks still wait for another try would look as if it had lost them.
            .Where(record => !waiting[record.Root].Any(tray => tray.RedoOf >= record.Step))
            .GroupBy(record => record.Root, StringComparer.Ordinal)
            .Where(batch => roots.ContainsKey(batch.Key) && routes.ContainsKey(roots[batch.Key].Model))
            .SelectMany(batch => Counted(batch, roots[batch.Key], routes[roots[batch.Key].Model]));
        return new YieldHistory(
            [.. pastSteps.Select(Counted), .. counts],
            [.. PastBatches(pastSteps, pastGrades), .. finals.Select(Graded)]
        )
        {
            Markers = marked,
        };
    }

    private static BenchRecord Bench(StepRecord record) =>
        new(
            record.Root,
            record.Step,
            record.In - record.Carried,
            record.Passed,
            record.RejectedCount,
            record.SentAgain ? 0 : record.Redo,
            record.RedoOf,
            record.Day
        );

    private static IReadOnlyList<StepCount> Counted(IEnumerable<StepRecord> records, Batch root, ReedModel model) =>
        BatchCounts.Of(records.Select(Bench), model.Route, root.Model, root.CaneLot);

    private static StepCount Counted(PastStep step) =>
        new(step.Batch, step.Model, step.CaneLot, step.Date, step.Step, step.In, step.Out, step.Redo);

    private static IEnumerable<BatchGrades> PastBatches(List<PastStep> steps, List<PastGrade> grades)
    {
        var last = steps
            .GroupBy(step => step.Batch, StringComparer.Ordinal)
            .ToDictionary(batch => batch.Key, batch => batch.MaxBy(step => step.Date)!, StringComparer.Ordinal);
        return grades
            .GroupBy(grade => grade.Batch, StringComparer.Ordinal)
            .Where(batch => last.TryGetValue(batch.Key, out var step) && step.Aim is not null)
            .Select(batch => new BatchGrades(
                batch.Key,
                last[batch.Key].Model,
                last[batch.Key].CaneLot,
                last[batch.Key].Date,
                last[batch.Key].Aim!.Value,
                batch.ToDictionary(grade => grade.Strength, grade => grade.Count)
            ));
    }

    private static BatchGrades Graded(GradeRecord record) =>
        new(
            record.Root,
            record.Model,
            record.CaneLot,
            record.Day,
            record.Aim,
            record.Grades.ToDictionary(grade => grade.Strength, grade => grade.Count)
        );
}

/// <summary>What an estimate was made from.</summary>
public sealed record EstimatesKey(
    DateOnly Today,
    int HalfLifeDays,
    double BeforeMarker,
    GradeSteps GradeSteps,
    string Markers,
    int PastSteps,
    int PastGrades,
    int FinalGrades,
    (int Count, long Last, long Mark) Records
);

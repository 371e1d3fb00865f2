using ReedShop.Catalogue;

namespace ReedShop.Workshop;

/// <summary>Lays a batch out as it goes: days with work, done and to come, and the nights between them.</summary>
public static class BatchThread
{
    public static IReadOnlyList<ThreadDay> Of(
        BatchStory story,
        ReedModel model,
        IReadOnlyList<StepRecord> ofAllTrays,
        IReadOnlyList<DampNight> damp
    )
    {
        var records = Way(story.Batch, ofAllTrays).ToArray();
        DateOnly[] days =
        [
            .. records.Select(record => record.Day),
            .. story.Planned.Select(sitting => sitting.Date),
            // A batch that stood half-way on the first day was worked before anything was recorded here.
            .. new[]
            {
                records.Length > 0 ? records[0].Before.LastWorkedOn : story.Batch.LastWorkedOn,
            }.OfType<DateOnly>(),
        ];
        var dates = days.Distinct().Order().ToArray();
        var nights = damp.Where(night => Belongs(night, story.Batch, records)).Select(night => night.Date).ToArray();
        return
        [
            .. dates.Select(
                (date, n) =>
                {
                    var next = n + 1 < dates.Length ? dates[n + 1] : date;
                    return new ThreadDay(
                        date,
                        [.. records.Where(r => r.Day == date).Select(r => StepRecordView.Of(r, model))],
                        [.. story.Planned.Where(sitting => sitting.Date == date)],
                        next.DayNumber - date.DayNumber,
                        records.FirstOrDefault(record => record.Day > date)?.In ?? story.Batch.Blanks,
                        nights.Distinct().Count(night => night >= date && night < next)
                    );
                }
            ),
        ];
    }

    /// <summary>The records of a tray, and before them those of the tray it came from.</summary>
    private static IEnumerable<StepRecord> Way(BatchView tray, IReadOnlyList<StepRecord> all)
    {
        var own = all.Where(record => record.BatchId == tray.Id).ToArray();
        return Before(tray.Id, tray.Root, own.Length > 0 ? own[0].Step : tray.NextStep, all).Concat(own);
    }

    private static IEnumerable<StepRecord> Before(string id, string root, int step, IReadOnlyList<StepRecord> all)
    {
        if (id == root)
        {
            return [];
        }

        // Blanks sent again or left for another day came of a record; a tray that was split off came of none.
        var birth = all.FirstOrDefault(record => record.Trays.Contains(id));
        var from = birth?.BatchId ?? root;
        var parents = all.Where(r => r.BatchId == from && (birth is null ? r.Step < step : r.Id <= birth.Id)).ToArray();
        return Before(from, root, parents.Length > 0 ? parents[0].Step : step, all).Concat(parents);
    }

    private static bool Belongs(DampNight night, BatchView tray, IReadOnlyList<StepRecord> way) =>
        night.BatchId == tray.Id || way.Any(record => record.BatchId == night.BatchId && record.Day <= night.Date);
}

using ReedShop.Catalogue;
using ReedShop.Planning;

namespace ReedShop.Workshop;

/// <summary>A file's good rows beside what is stored: rows to take, how many are there already, rows that clash.</summary>
public sealed record HistoryChanges<T>(IReadOnlyList<T> Fresh, int Already, BadRows Bad);

/// <summary>Holds the good rows of a file against what was imported before. The same row again is no change.</summary>
public sealed class HistoryStored(PastStore past)
{
    private const int RowsAtOnce = 2_000;

    public Task<HistoryChanges<PastStep>> Changes(IReadOnlyList<HistoryRow<PastStep>> rows, CancellationToken cancel) =>
        Sort(
            rows,
            step => step.Batch,
            async batches =>
            {
                var stored = (await past.StepsOf(batches, cancel)).ToLookup(step => step.Batch, StringComparer.Ordinal);
                return step => Verdict(step, [.. stored[step.Batch]]);
            }
        );

    public Task<HistoryChanges<PastGrade>> Changes(
        IReadOnlyList<HistoryRow<PastGrade>> rows,
        IEnumerable<ReedModel> models,
        CancellationToken cancel
    )
    {
        var routes = models.ToDictionary(model => model.Key, model => model.Route, StringComparer.Ordinal);
        var batches = new Dictionary<string, GradedBatch>(StringComparer.Ordinal);
        return Sort(
            rows,
            grade => grade.Batch,
            async names =>
            {
                var unread = names.Where(name => !batches.ContainsKey(name)).ToArray();
                var steps = (await past.StepsOf(unread, cancel)).ToLookup(step => step.Batch, StringComparer.Ordinal);
                var grades = (await past.GradesOf(unread, cancel)).ToLookup(g => g.Batch, StringComparer.Ordinal);
                foreach (var name in unread)
                {
                    batches.Add(
                        name,
                        new GradedBatch(
                            [.. steps[name].OrderBy(step => routes.GetValueOrDefault(step.Model)?.NumberOf(step.Step))],
                            grades[name].ToDictionary(grade => grade.Strength, grade => grade.Count)
                        )
                    );
                }

                return grade => Verdict(grade, batches[grade.Batch]);
            }
        );
    }

    private static (bool Known, string? Fault) Verdict(PastStep step, PastStep[] stored)
    {
        var same = Array.Find(stored, other => other.Step == step.Step);
        var clash = stored.Select(step.ClashWith).FirstOrDefault(found => found is not null);
        return same?.SameAs(step) == true ? (true, null)
            : clash is not null ? (false, $"{clash}, as stored")
            : same is not null
                ? (
                    false,
                    $"batch {step.Batch} has its step {step.Step} stored with other figures: {same}; write the same, or another batch"
                )
            : (false, null);
    }

    private static (bool Known, string? Fault) Verdict(PastGrade grade, GradedBatch batch)
    {
        var isStored = batch.Counts.TryGetValue(grade.Strength, out var stored);
        var fault =
            batch.Steps.Count == 0 ? $"batch {grade.Batch} is unknown; import its steps first"
            : batch.Steps.All(step => step.Aim is null)
                ? $"batch {grade.Batch} was imported without an aim, so its grades say nothing; give its steps an aim"
            : isStored && stored != grade.Count
                ? $"batch {grade.Batch} has {stored} of strength {grade.Strength} stored; write the same, or another batch"
            : !isStored && batch.Graded + grade.Count > batch.Steps[^1].Out
                ? $"batch {grade.Batch} kept {batch.Steps[^1].Out} at its last step, {batch.Steps[^1].Step}, and {batch.Graded} are graded; write 0 to {Math.Max(0, batch.Steps[^1].Out - batch.Graded)}"
            : null;
        if (!isStored && fault is null)
        {
            batch.Graded += grade.Count;
        }

        return (isStored && fault is null, fault);
    }

    private static async Task<HistoryChanges<T>> Sort<T>(
        IReadOnlyList<HistoryRow<T>> rows,
        Func<T, string> batch,
        Func<string[], Task<Func<T, (bool Known, string? Fault)>>> read
    )
    {
        var fresh = new List<T>();
        var bad = new BadRows();
        foreach (var some in rows.Chunk(RowsAtOnce))
        {
            var judge = await read([.. some.Select(row => batch(row.Value)).Distinct(StringComparer.Ordinal)]);
            foreach (var row in some)
            {
                var (known, fault) = judge(row.Value);
                if (fault is not null)
                {
                    bad.Add(row.Line, fault);
                }
                else if (!known)
                {
                    fresh.Add(row.Value);
                }
            }
        }

        return new HistoryChanges<T>(fresh, rows.Count - fresh.Count - bad.Count, bad);
    }

    /// <summary>What is known of a batch whose grades are read.</summary>
    /// <param name="Steps">In the order of the route.</param>
    /// <param name="Counts">Grades stored before.</param>
    private sealed record GradedBatch(IReadOnlyList<PastStep> Steps, IReadOnlyDictionary<Strength, int> Counts)
    {
        /// <summary>Reeds graded so far, those of this file too.</summary>
        public int Graded { get; set; } = Counts.Values.Sum();
    }
}

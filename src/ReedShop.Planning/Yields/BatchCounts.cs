using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Yields;

/// <summary>What the bench wrote down for one tray at one step.</summary>
/// <param name="RootBatch">The batch the tray was split from, or the batch itself.</param>
/// <param name="Step">Number of the step within the route, from 1.</param>
/// <param name="RedoOf">Number of the step at which these blanks failed before and were sent back; null if they never failed.</param>
public sealed record BenchRecord(
    string RootBatch,
    int Step,
    int In,
    int Passed,
    int Rejected,
    int Redo,
    int? RedoOf,
    DateOnly Day
);

/// <summary>Turns bench records into step counts in which a blank comes to a step once, however often it is worked.</summary>
public static class BatchCounts
{
    /// <summary>
    /// The counts of all root batches among the records, in the order in which they first appear. Blanks that still wait to
    /// be worked again are not among the survivors yet: read a step of a batch once none of its blanks wait.
    /// </summary>
    /// <remarks>A step is as of the last day it was worked: a marker set between two steps lies between them.</remarks>
    public static IReadOnlyList<StepCount> Of(
        IEnumerable<BenchRecord> records,
        ReedRoute route,
        string model,
        string? caneLot
    ) =>
        [
            .. records
                .Where(record => route[record.Step].Check != Check.None)
                .GroupBy(record => (record.RootBatch, record.Step))
                .Select(step =>
                    step.Aggregate(
                        new StepCount(
                            step.Key.RootBatch,
                            model,
                            caneLot,
                            step.Max(record => record.Day),
                            route[step.Key.Step].Name,
                            0,
                            0,
                            0
                        ),
                        Add
                    )
                ),
        ];

    private static StepCount Add(StepCount sum, BenchRecord record) =>
        (record.RedoOf ?? 0).CompareTo(record.Step) switch
        {
            // On their way back up to where they failed: counted when they first came by.
            > 0 => sum,
            0 => sum with { Out = sum.Out + record.Passed },
            < 0 => sum with { In = sum.In + record.In, Out = sum.Out + record.Passed, Redo = sum.Redo + record.Redo },
        };
}

using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>Reeds pegged to a batch, those promised earlier included, with the cover that was stated for them.</summary>
public sealed record PeggedNeed(GradeNeed Need, double Cover);

/// <summary>The least number of blanks that must come to a step.</summary>
public sealed record AlarmLine(string Step, int Blanks);

/// <summary>
/// Alarm lines of a batch on the bench: for every counted step the least number alive for which all that is pegged to it
/// is still covered as stated.
/// </summary>
public static class AlarmLines
{
    // A chance computed twice in different order may differ in the last digits; that is no lower chance.
    private const double Rounding = 1e-9;

    /// <param name="countedSteps">All counted steps the batch walks, in order.</param>
    /// <param name="started">Blanks it was started with.</param>
    /// <param name="pegged">What is promised of it.</param>
    /// <remarks>
    /// A line made by several batches states the cover of all of them, and estimates move: a batch is held to no more than
    /// it had when it was started, so that a line tells of blanks lost, not of what was never there.
    /// </remarks>
    public static IReadOnlyList<AlarmLine> Of(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        int started,
        IReadOnlyList<PeggedNeed> pegged
    )
    {
        var lines = new int[countedSteps.Count];
        foreach (var (need, cover) in pegged)
        {
            var chances = BatchSizer.ChancesByStep(yields, countedSteps, grades, need, started);
            var level = Math.Min(cover, chances[0][started]) - Rounding;
            for (var s = 0; s < lines.Length; s++)
            {
                lines[s] = Math.Max(lines[s], BatchSizer.Smallest(chances[s], level) ?? started);
            }
        }

        return [.. countedSteps.Zip(lines, (step, blanks) => new AlarmLine(step, blanks))];
    }
}

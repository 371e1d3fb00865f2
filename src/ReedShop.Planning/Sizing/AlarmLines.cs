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
            for (var s = 0; s < lines.Length; s++)
            {
                var least = BatchSizer.Smallest(chances[s], Level(cover, chances[0][started]));
                lines[s] = Math.Max(lines[s], least ?? started);
            }
        }

        return [.. countedSteps.Zip(lines, (step, blanks) => new AlarmLine(step, blanks))];
    }

    /// <summary>Whether the blanks alive, wherever they stand, cover less of what is pegged than was stated.</summary>
    public static bool Rings(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        int started,
        IReadOnlyList<WaitingBlanks> alive,
        IReadOnlyList<PeggedNeed> pegged
    ) =>
        pegged.Any(peg =>
            TrayCover.Chance(yields, alive, grades, peg.Need)
            < Level(peg.Cover, TrayCover.Chance(yields, [new WaitingBlanks(countedSteps, started)], grades, peg.Need))
        );

    private static double Level(double stated, double whenStarted) => Math.Min(stated, whenStarted) - Rounding;
}

using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>How many blanks to start.</summary>
public static class BatchSizer
{
    /// <summary>
    /// The chance that a need is met, for every number of blanks started: with P(k|n) the probability that k of n survive
    /// all steps, h(n) = sum over k of P(k|n) c(k), where c(k) is the chance that k finished reeds cover the need.
    /// </summary>
    /// <param name="countedSteps">Names of the steps still to walk, in order.</param>
    /// <param name="grades">Where finished reeds land; null if every one of them serves.</param>
    /// <param name="most">The largest number of blanks asked about.</param>
    /// <returns>Index: blanks started, 0..most.</returns>
    public static double[] Chances(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        GradeNeed need,
        int most
    ) => Chances(yields.Along(countedSteps).All, GradeCover.Chances(grades, need, most));

    /// <summary>
    /// The same for a batch on the bench, the alarm line: [s][n] is the chance when n blanks are alive before the s-th of
    /// the steps; the last row is that of finished reeds.
    /// </summary>
    public static double[][] ChancesByStep(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        GradeNeed need,
        int most
    )
    {
        var cover = GradeCover.Chances(grades, need, most);
        return
        [
            .. Enumerable
                .Range(0, countedSteps.Count)
                .Select(s => Chances(yields.Along([.. countedSteps.Skip(s)]).All, cover)),
            cover,
        ];
    }

    /// <summary>
    /// The same for each node of the effect that the steps of a lot share: [node][n]. Given the node, batches of the same
    /// lot meet their needs independently.
    /// </summary>
    public static double[][] ChancesByNode(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        GradeNeed need,
        int most
    )
    {
        var cover = GradeCover.Chances(grades, need, most);
        return [.. yields.Along(countedSteps).Nodes.Select(node => Chances(node, cover))];
    }

    /// <summary>The smallest number of blanks whose chance reaches the asked confidence; null if none does.</summary>
    public static int? Smallest(double[] chances, double confidence)
    {
        var index = Array.FindIndex(chances, chance => chance >= confidence);
        return index < 0 ? null : index;
    }

    /// <summary>Mean number of reeds in strengths that the need accepts, from so many blanks.</summary>
    public static double ExpectedGood(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        GradeNeed need,
        int blanks
    ) => blanks * yields.Along(countedSteps).Mean * (grades?.Share(need.Accepted) ?? 1);

    /// <summary>Probabilities of good reeds, those in accepted strengths, for every number of blanks started.</summary>
    /// <param name="accepted">Strengths that serve; not asked where <paramref name="grades"/> is null.</param>
    /// <returns>[blanks][good reeds], blanks 0..most.</returns>
    public static double[][] GoodReeds(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        IReadOnlySet<Strength> accepted,
        int most
    )
    {
        var walk = yields.Along(countedSteps).All;
        return (grades is null ? walk : SurvivalMix.Chain(walk, grades.Good(accepted))).Table(most)[..(most + 1)];
    }

    private static double[] Chances(SurvivalMix survivors, double[] cover)
    {
        var table = survivors.Table(cover.Length - 1);
        var chances = new double[cover.Length];
        for (var n = 0; n < chances.Length; n++)
        {
            // Rounding must not state more than certainty.
            chances[n] = Math.Min(1, Grid.Dot(table[n], cover));
        }

        return chances;
    }
}

using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>How many blanks to start.</summary>
public static class BatchSizer
{
    /// <summary>
    /// The chance that a need is met, for every number of blanks started, by one backward pass over the counted steps: with
    /// k of n surviving a step with probability P(k|n), h(n) = sum over k of P(k|n) h'(k).
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
    ) => ChancesByStep(yields, countedSteps, grades, need, most)[0];

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
        var steps = countedSteps.Select(yields.Step).ToArray();
        var cover = GradeCover.Chances(grades, need, most);
        var chances = new double[steps.Length + 1][];
        for (var s = 0; s < steps.Length; s++)
        {
            chances[s] = new double[most + 1];
        }

        chances[steps.Length] = cover;
        for (var node = 0; node < yields.NodeWeights.Count; node++)
        {
            var later = cover;
            for (var s = steps.Length - 1; s >= 0; s--)
            {
                later = Before(steps[s].Node(node).Table(most), later);
                AddTo(chances[s], later, yields.NodeWeights[node]);
            }
        }

        return chances;
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
    )
    {
        var steps = countedSteps.Select(yields.Step).ToArray();
        var survive = yields
            .NodeWeights.Select(
                (weight, node) => weight * steps.Aggregate(1.0, (share, step) => share * step.Node(node).Mean)
            )
            .Sum();
        return blanks * survive * (grades?.Share(need.Accepted) ?? 1);
    }

    private static double[] Before(double[][] table, double[] later)
    {
        var chances = new double[later.Length];
        for (var n = 0; n < chances.Length; n++)
        {
            var row = table[n];
            var sum = 0.0;
            for (var k = 0; k <= n; k++)
            {
                sum += row[k] * later[k];
            }

            chances[n] = sum;
        }

        return chances;
    }

    private static void AddTo(double[] sum, double[] values, double weight)
    {
        for (var n = 0; n < sum.Length; n++)
        {
            sum[n] += weight * values[n];
        }
    }
}

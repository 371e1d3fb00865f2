using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>How many blanks to start.</summary>
public static class BatchSizer
{
    /// <summary>
    /// The chance that a need is met, for every number of blanks started, by one backward pass over the counted steps: with
    /// P(k|n) the probability that k of n survive a step, h(n) = sum over k of P(k|n) h'(k).
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
        var byNode = ChancesByNode(yields, countedSteps, grades, need, most);
        var chances = new double[countedSteps.Count + 1][];
        for (var s = 0; s < chances.Length; s++)
        {
            chances[s] = new double[most + 1];
            for (var node = 0; node < byNode.Length; node++)
            {
                Grid.Add(chances[s], byNode[node][s], yields.NodeWeights[node]);
            }

            // Rounding must not state more than certainty.
            chances[s] = Array.ConvertAll(chances[s], chance => Math.Min(1, chance));
        }

        return chances;
    }

    /// <summary>
    /// The same for each node of the effect that the steps of a lot share: [node][s][n]. Given the node, batches of the
    /// same lot meet their needs independently.
    /// </summary>
    public static double[][][] ChancesByNode(
        YieldEstimate yields,
        IReadOnlyList<string> countedSteps,
        GradeMix? grades,
        GradeNeed need,
        int most
    )
    {
        var steps = countedSteps.Select(yields.Step).ToArray();
        var cover = GradeCover.Chances(grades, need, most);
        return [.. yields.NodeWeights.Select((_, node) => Backward(steps, node, cover))];
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
                (weight, node) => steps.Aggregate(weight, (share, step) => share * step.Nodes[node].Mean)
            )
            .Sum();
        return blanks * survive * (grades?.Share(need.Accepted) ?? 1);
    }

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
        var steps = countedSteps.Select(yields.Step).ToArray();
        var finished = new double[most + 1];
        for (var node = 0; node < yields.NodeWeights.Count; node++)
        {
            var alive = new double[most + 1];
            alive[most] = 1;
            foreach (var step in steps)
            {
                alive = Forward(step.Nodes[node].Table(most), alive);
            }

            Grid.Add(finished, alive, yields.NodeWeights[node]);
        }

        return Thinning.Rows(grades is null ? finished : Forward(grades.Good(accepted).Table(most), finished), 0);
    }

    private static double[] Forward(double[][] table, double[] law)
    {
        var next = new double[law.Length];
        for (var n = 0; n < law.Length; n++)
        {
            Grid.Add(next.AsSpan(0, n + 1), table[n], law[n]);
        }

        return next;
    }

    private static double[][] Backward(StepYield[] steps, int node, double[] cover)
    {
        var chances = new double[steps.Length + 1][];
        chances[steps.Length] = cover;
        for (var s = steps.Length - 1; s >= 0; s--)
        {
            var table = steps[s].Nodes[node].Table(cover.Length - 1);
            var later = chances[s + 1];
            var now = chances[s] = new double[cover.Length];
            for (var n = 0; n < now.Length; n++)
            {
                now[n] = Grid.Dot(table[n], later);
            }
        }

        return chances;
    }
}

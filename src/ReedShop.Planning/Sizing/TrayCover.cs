using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>Blanks that stand at one place of the route.</summary>
/// <param name="CountedSteps">Names of the steps still to walk, in order.</param>
public sealed record WaitingBlanks(IReadOnlyList<string> CountedSteps, int Blanks);

/// <summary>
/// The chance that blanks of one batch, some of them sent back or left behind, together cover a need: given a node of
/// the effect that their lot shares, those at one place survive independently of those at another.
/// </summary>
public static class TrayCover
{
    /// <param name="grades">Where finished reeds land; null if every one of them serves.</param>
    public static double Chance(
        YieldEstimate yields,
        IReadOnlyList<WaitingBlanks> waiting,
        GradeMix? grades,
        GradeNeed need
    )
    {
        var cover = GradeCover.Chances(grades, need, waiting.Sum(place => place.Blanks));
        var walks = waiting.Select(place => (Walk: yields.Along(place.CountedSteps), place.Blanks)).ToArray();
        if (walks is [var (only, blanks)])
        {
            return Covered(only.All.Survivors(blanks), cover);
        }

        var chance = 0.0;
        for (var node = 0; node < yields.NodeWeights.Count; node++)
        {
            var laws = walks.Select(place => place.Walk.Nodes[node].Survivors(place.Blanks).ToArray());
            chance += yields.NodeWeights[node] * Covered(laws.Aggregate(Sum), cover);
        }

        return Math.Min(1, chance);
    }

    private static double Covered(ReadOnlySpan<double> survivors, double[] cover) =>
        Math.Min(1, Grid.Dot(survivors, cover));

    /// <summary>The law of the sum of two independent counts.</summary>
    private static double[] Sum(double[] one, double[] other)
    {
        var law = new double[one.Length + other.Length - 1];
        for (var i = 0; i < one.Length; i++)
        {
            Grid.Add(law.AsSpan(i, other.Length), other, one[i]);
        }

        return law;
    }
}

using ReedShop.Planning.Sizing;

namespace ReedShop.Planning.Promising;

/// <summary>The chance that blanks cover the reeds that are wanted of them.</summary>
public static class LineCover
{
    /// <param name="accepted">Strengths that serve.</param>
    /// <param name="aim">What the blanks are worked toward.</param>
    /// <param name="firstStep">The next step of the blanks, from 1.</param>
    /// <param name="count">Reeds wanted.</param>
    /// <returns>Index: blanks alive, 0..most.</returns>
    public static double[] Chances(
        ModelSupply supply,
        IEnumerable<Strength> accepted,
        Strength aim,
        string? lot,
        int firstStep,
        int count,
        int most
    )
    {
        var yields = supply.Yields(lot);
        return BatchSizer.Chances(
            yields,
            supply.Route.CountedSteps(firstStep, supply.Route.Steps.Count),
            yields.Grades(aim),
            GradeNeed.Any(accepted.ToHashSet(), count),
            most
        );
    }
}

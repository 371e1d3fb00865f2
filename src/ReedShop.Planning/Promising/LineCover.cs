using ReedShop.Planning.Sizing;

namespace ReedShop.Planning.Promising;

/// <summary>Blanks alive on a tray.</summary>
/// <param name="NextStep">From 1.</param>
public sealed record AliveBlanks(Strength Aim, string? Lot, int NextStep, int Blanks);

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

    /// <summary>
    /// The same for blanks that are not all alike. Those of one lot worked toward one aim count as one batch, each at its
    /// own step; those of several are taken as independent.
    /// </summary>
    public static double Of(
        ModelSupply supply,
        IReadOnlySet<Strength> accepted,
        IReadOnlyList<AliveBlanks> alive,
        int count
    )
    {
        var kinds = alive.GroupBy(blanks => (blanks.Aim, blanks.Lot)).ToArray();
        return kinds is [var kind]
            ? AtLeast(supply, accepted, [.. kind], count)
            : kinds.Select(each => Law(supply, accepted, [.. each], count)).Aggregate(Sum)[count];
    }

    /// <summary>Where blanks stand that wait on several trays of one batch.</summary>
    public static IReadOnlyList<WaitingBlanks> Waiting(
        Routes.ReedRoute route,
        IEnumerable<(int NextStep, int Blanks)> trays
    ) =>
        [
            .. trays
                .GroupBy(tray => tray.NextStep)
                .Select(place => new WaitingBlanks(
                    route.CountedSteps(place.Key, route.Steps.Count),
                    place.Sum(tray => tray.Blanks)
                )),
        ];

    private static double AtLeast(ModelSupply supply, IReadOnlySet<Strength> accepted, AliveBlanks[] blanks, int count)
    {
        var yields = supply.Yields(blanks[0].Lot);
        return TrayCover.Chance(
            yields,
            Waiting(supply.Route, blanks.Select(tray => (tray.NextStep, tray.Blanks))),
            yields.Grades(blanks[0].Aim),
            GradeNeed.Any(accepted, count)
        );
    }

    /// <summary>Chances of 0, 1, ... serving reeds; the last of all that are wanted, or more.</summary>
    private static double[] Law(ModelSupply supply, IReadOnlySet<Strength> accepted, AliveBlanks[] blanks, int count)
    {
        double[] atLeast =
        [
            1,
            .. Enumerable.Range(1, count).Select(reeds => AtLeast(supply, accepted, blanks, reeds)),
            0,
        ];
        double[] law = [.. Enumerable.Range(0, count + 1).Select(reeds => atLeast[reeds] - atLeast[reeds + 1])];
        return law;
    }

    private static double[] Sum(double[] one, double[] other)
    {
        var law = new double[one.Length];
        for (var i = 0; i < one.Length; i++)
        {
            for (var j = 0; j < other.Length; j++)
            {
                law[Math.Min(i + j, law.Length - 1)] += one[i] * other[j];
            }
        }

        return law;
    }
}

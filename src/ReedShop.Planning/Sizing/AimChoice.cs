using System.Collections.Immutable;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>The share of reeds worked toward an aim that is expected to land on a wanted strength.</summary>
/// <param name="Batches">Graded batches of the model behind the figure.</param>
public sealed record AimShare(Strength Aim, double Share, int Batches);

/// <summary>Which aim gives most of a wanted strength: a maker whose reeds come out soft does well to aim harder.</summary>
public static class AimChoice
{
    /// <summary>An aim off the wanted strength must give so much more of it: little is known of where it lands.</summary>
    private const double LeastGain = 0.05;

    // Farther off no aim of a sober history gives most of a strength.
    private const int MostQuartersOff = 4;

    /// <summary>Every aim of the shop's grades within a whole strength of the wanted one, from the softest.</summary>
    /// <param name="quartersBetweenGrades">Quarter steps between two grades: 1 for quarters, 2 for half steps.</param>
    public static IReadOnlyList<AimShare> AimsFor(YieldEstimate yields, Strength wanted, int quartersBetweenGrades)
    {
        var accepted = ImmutableHashSet.Create(wanted);
        var aims =
            from quarters in Enumerable.Range(-MostQuartersOff, (2 * MostQuartersOff) + 1)
            where quarters % quartersBetweenGrades == 0
            let aim = wanted.QuartersAway(quarters)
            where aim is not null
            let mix = yields.Grades(aim.Value)
            select new AimShare(aim.Value, mix.Share(accepted), mix.Batches);
        return [.. aims];
    }

    /// <summary>The aim that gives most of the strengths that serve; the wanted one unless another gives clearly more.</summary>
    public static Strength AimFor(
        YieldEstimate yields,
        Strength wanted,
        IReadOnlySet<Strength> accepted,
        int quartersBetweenGrades
    )
    {
        var best = new[] { 0, -quartersBetweenGrades, quartersBetweenGrades }
            .Select(wanted.QuartersAway)
            .OfType<Strength>()
            .Select(aim => (Aim: aim, Share: yields.Grades(aim).Share(accepted)))
            .ToArray();
        var off = best.Skip(1).MaxBy(aim => aim.Share);
        return off.Share >= best[0].Share + LeastGain ? off.Aim : wanted;
    }

    /// <summary>The aim with the largest share; of two alike the one nearer to the wanted strength.</summary>
    public static AimShare AimFor(YieldEstimate yields, Strength wanted, int quartersBetweenGrades) =>
        AimsFor(yields, wanted, quartersBetweenGrades)
            .OrderByDescending(aim => aim.Share)
            .ThenBy(aim => Math.Abs(aim.Aim.Quarters - wanted.Quarters))
            .First();
}

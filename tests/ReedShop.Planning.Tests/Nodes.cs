using MathNet.Numerics.Integration;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Tests;

/// <summary>Steps whose chance is drawn once and shared, as nodes.</summary>
internal static class Nodes
{
    /// <summary>A chance from Beta(alpha, beta), weighed by what was seen of it.</summary>
    public static StepYield OfBeta(int alpha, int beta, Func<double, double>? seen = null)
    {
        // Gauss-Legendre is exact here: all that is asked are polynomials in the chance, of degree below 128.
        var rule = new GaussLegendreRule(0, 1, 64);
        var weights = rule
            .Abscissas.Zip(
                rule.Weights,
                (p, weight) => weight * Math.Pow(p, alpha - 1) * Math.Pow(1 - p, beta - 1) * (seen?.Invoke(p) ?? 1)
            )
            .ToArray();
        var total = weights.Sum();
        return new StepYield(
            [.. weights.Select(weight => weight / total)],
            [.. rule.Abscissas.Select(p => new SurvivalMix([(1, new BetaBinomial(p, 0))]))]
        );
    }
}

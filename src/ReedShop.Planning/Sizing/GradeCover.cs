using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>The chance that so many finished reeds meet every part of a need, for each number of reeds at once.</summary>
internal static class GradeCover
{
    /// <summary>Index: finished reeds, 0..most. Without a grade mix every finished reed serves.</summary>
    public static double[] Chances(GradeMix? grades, GradeNeed need, int most)
    {
        if (grades is null)
        {
            return [.. Enumerable.Range(0, most + 1).Select(reeds => reeds >= need.Total ? 1.0 : 0.0)];
        }

        var weights = grades.NodeWeights.ToArray();
        var shares = need.Parts.Select(part => grades.NodeShares(part.Accepted).ToArray()).ToArray();
        var chances = new double[most + 1];
        for (var node = 0; node < weights.Length; node++)
        {
            var own = Given([.. need.Parts.Select((part, i) => (part.Count, shares[i][node]))], most);
            for (var reeds = 0; reeds <= most; reeds++)
            {
                chances[reeds] += weights[node] * own[reeds];
            }
        }

        return chances;
    }

    /// <summary>
    /// Given the share of each part, reeds fall independently: the first part takes a binomial number of them, the other
    /// parts must be met from the rest.
    /// </summary>
    public static double[] Given(ReadOnlySpan<(int Count, double Share)> parts, int most)
    {
        if (parts.IsEmpty)
        {
            var all = new double[most + 1];
            Array.Fill(all, 1);
            return all;
        }

        var (count, share) = parts[0];
        var rest = new (int Count, double Share)[parts.Length - 1];
        for (var i = 0; i < rest.Length; i++)
        {
            rest[i] = (parts[i + 1].Count, share < 1 ? Math.Min(1, parts[i + 1].Share / (1 - share)) : 0);
        }

        var later = Given(rest, most);
        var law = new BetaBinomial(Math.Clamp(share, 0, 1), 0);
        var chances = new double[most + 1];
        for (var reeds = count; reeds <= most; reeds++)
        {
            var row = law.Row(reeds);
            for (var taken = count; taken <= reeds; taken++)
            {
                chances[reeds] += row[taken] * later[reeds - taken];
            }
        }

        return chances;
    }
}

using System.Numerics;
using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>The chance that finished reeds meet every part of a need, for each number of reeds at once.</summary>
internal static class GradeCover
{
    /// <summary>Index: finished reeds, 0..most. Without a grade mix every finished reed serves.</summary>
    public static double[] Chances(GradeMix? grades, GradeNeed need, int most)
    {
        if (grades is null)
        {
            return [.. Enumerable.Range(0, most + 1).Select(reeds => reeds >= need.Total ? 1.0 : 0.0)];
        }

        return need.Parts.Count == 1
            ? AtLeast(
                need.Parts[0].Count,
                [.. grades.Nodes.Select(node => node.Share(need.Parts[0].Accepted))],
                [.. grades.Nodes.Select(node => node.Weight)],
                most
            )
            : Jointly(grades, need, most);
    }

    private static double[] Jointly(GradeMix grades, GradeNeed need, int most)
    {
        var chances = new double[most + 1];
        foreach (var node in grades.Nodes)
        {
            var parts = need.Parts.Select(part => (part.Count, node.Share(part.Accepted))).ToArray();
            Grid.Add(chances, Given(parts, most), node.Weight);
        }

        return chances;
    }

    /// <summary>
    /// Given the share of each part, reeds fall independently. The first part is met for the first time by some reed; of
    /// the reeds outside it, which are binomial in number, the other parts must be met.
    /// </summary>
    private static double[] Given(ReadOnlySpan<(int Count, double Share)> parts, int most) =>
        parts.Length switch
        {
            0 => Always(most),
            1 => AtLeast(parts[0].Count, [parts[0].Share], [1], most),
            _ => Jointly(parts, most),
        };

    private static double[] Always(int most)
    {
        var chances = new double[most + 1];
        Array.Fill(chances, 1);
        return chances;
    }

    /// <summary>
    /// The count-th success falls on some reed up to the last: running sums of negative binomial terms, one for each share,
    /// several side by side, weighed and added.
    /// </summary>
    private static double[] AtLeast(int count, double[] shares, double[] weights, int most)
    {
        var lanes = Vector<double>.Count;
        var width = (shares.Length + lanes - 1) / lanes * lanes;
        var falls = new double[width];
        var misses = new double[width];
        for (var i = 0; i < shares.Length; i++)
        {
            falls[i] = weights[i] * Math.Pow(shares[i], count);
            misses[i] = 1 - shares[i];
        }

        var terms = new Vector<double>[most + 1];
        for (var i = 0; i < width; i += lanes)
        {
            AddTerms(terms, count, new(falls, i), new(misses, i));
        }

        return Sums(terms);
    }

    private static void AddTerms(Vector<double>[] terms, int count, Vector<double> fallsHere, Vector<double> misses)
    {
        for (var reeds = count; reeds < terms.Length; reeds++)
        {
            terms[reeds] += fallsHere;
            fallsHere *= misses * (reeds / (reeds - count + 1.0));
        }
    }

    private static double[] Sums(Vector<double>[] terms)
    {
        var sums = new double[terms.Length];
        var sum = 0.0;
        for (var i = 0; i < terms.Length; i++)
        {
            sum += Vector.Sum(terms[i]);
            sums[i] = Math.Min(1, sum);
        }

        return sums;
    }

    private static double[] Jointly(ReadOnlySpan<(int Count, double Share)> parts, int most)
    {
        var (count, share) = parts[0];
        var outside = new (int, double)[parts.Length - 1];
        for (var i = 0; i < outside.Length; i++)
        {
            outside[i] = (parts[i + 1].Count, share < 1 ? Math.Min(1, parts[i + 1].Share / (1 - share)) : 0);
        }

        var met = Given(outside, most);
        Array.Reverse(met);
        var inside = Thinning.Rows(new BetaBinomial(Math.Min(1, share), 0).Row(most), 0);
        var chances = new double[most + 1];
        for (var reeds = count; reeds <= most; reeds++)
        {
            chances[reeds] = Grid.Dot(inside[reeds].AsSpan(count), met.AsSpan(most - reeds + count));
        }

        return chances;
    }
}

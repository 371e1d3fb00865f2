using System.Numerics;
using System.Runtime.InteropServices;

namespace ReedShop.Planning.Yields;

/// <summary>
/// Evenly spaced points that stand for a continuous quantity. For smooth bell-shaped functions sums over such points
/// converge faster than any power of the spacing (Trefethen and Weideman, SIAM Review 56:385, 2014).
/// </summary>
internal sealed class Grid(double first, double spacing, int count)
{
    // A law that is nought somewhere could never learn that it was wrong.
    private const double Floor = 1e-30;

    public int Count => count;

    public double this[int index] => first + (index * spacing);

    /// <summary>A normal law on the points, summing to 1.</summary>
    public double[] Normal(double mean, double sd)
    {
        var law = new double[count];
        for (var i = 0; i < count; i++)
        {
            var z = (this[i] - mean) / sd;
            law[i] = Floor + Math.Exp(-0.5 * z * z);
        }

        Scale(law);
        return law;
    }

    /// <summary>Row i: a normal law centred on point i.</summary>
    public double[][] Kernel(double sd) => [.. Enumerable.Range(0, count).Select(i => Normal(this[i], sd))];

    /// <summary>A likelihood one level down, seen from every point one level up.</summary>
    public static double[] Up(double[][] kernel, double[] likelihood) =>
        Array.ConvertAll(kernel, row => Dot(row, likelihood));

    /// <summary>The law one level down that follows from a law one level up.</summary>
    public static double[] Down(double[][] kernel, double[] law)
    {
        var result = new double[law.Length];
        for (var i = 0; i < law.Length; i++)
        {
            Add(result, kernel[i], law[i]);
        }

        return result;
    }

    /// <summary>Bayes' rule: the law is weighed by a likelihood and scaled.</summary>
    /// <returns>The logarithm of the probability of what was seen.</returns>
    public static double Weigh(double[] law, double[] likelihood)
    {
        for (var i = 0; i < law.Length; i++)
        {
            law[i] *= likelihood[i];
        }

        return Math.Log(Scale(law));
    }

    /// <summary>Makes weights sum to 1.</summary>
    /// <returns>What they summed to.</returns>
    public static double Scale(double[] weights)
    {
        var sum = weights.Sum();
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
        }

        return sum;
    }

    /// <summary>Exponentials of logarithms, the largest becoming 1.</summary>
    /// <returns>The logarithm that was taken out.</returns>
    public static double Exp(double[] logs)
    {
        var top = logs.Max();
        for (var i = 0; i < logs.Length; i++)
        {
            logs[i] = Math.Exp(logs[i] - top);
        }

        return top;
    }

    /// <summary>Laws in proportion to weights given by their logarithms.</summary>
    public static double[] Blend(IReadOnlyList<double[]> laws, IEnumerable<double> logWeights)
    {
        var weights = logWeights.ToArray();
        Exp(weights);
        Scale(weights);
        var blend = new double[laws[0].Length];
        for (var i = 0; i < weights.Length; i++)
        {
            Add(blend, laws[i], weights[i]);
        }

        return blend;
    }

    /// <summary>The law of the sum of two independent counts.</summary>
    public static double[] Convolve(double[] one, double[] other)
    {
        var law = new double[one.Length + other.Length - 1];
        for (var i = 0; i < one.Length; i++)
        {
            Add(law.AsSpan(i, other.Length), other, one[i]);
        }

        return law;
    }

    public static void Add(Span<double> sum, ReadOnlySpan<double> values, double weight)
    {
        var sums = MemoryMarshal.Cast<double, Vector<double>>(sum);
        var wide = MemoryMarshal.Cast<double, Vector<double>>(values);
        for (var i = 0; i < sums.Length; i++)
        {
            sums[i] += weight * wide[i];
        }

        for (var i = sums.Length * Vector<double>.Count; i < sum.Length; i++)
        {
            sum[i] += weight * values[i];
        }
    }

    /// <summary>Sum of products over the length of the first.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var wideA = MemoryMarshal.Cast<double, Vector<double>>(a);
        var wideB = MemoryMarshal.Cast<double, Vector<double>>(b);
        var wide = Vector<double>.Zero;
        for (var i = 0; i < wideA.Length; i++)
        {
            wide += wideA[i] * wideB[i];
        }

        var sum = Vector.Sum(wide);
        for (var i = wideA.Length * Vector<double>.Count; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }
}

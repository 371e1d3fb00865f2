namespace ReedShop.Planning.Yields;

/// <summary>
/// Evenly spaced points that stand for a continuous quantity. For smooth bell-shaped functions sums over such points
/// converge faster than any power of the spacing (Trefethen and Weideman, SIAM Review 56:385, 2014).
/// </summary>
internal sealed class Grid(double first, double spacing, int count)
{
    public int Count => count;

    public double Spacing => spacing;

    public double this[int index] => first + (index * spacing);

    /// <summary>A normal law on the points, summing to 1.</summary>
    public double[] Normal(double mean, double sd)
    {
        var weights = new double[count];
        for (var i = 0; i < count; i++)
        {
            var z = (this[i] - mean) / sd;
            weights[i] = Math.Exp(-0.5 * z * z);
        }

        Scale(weights);
        return weights;
    }

    /// <summary>Row i: a normal law centred on point i.</summary>
    public double[][] Kernel(double sd) => [.. Enumerable.Range(0, count).Select(i => Normal(this[i], sd))];

    /// <summary>Expectation of f one level down, seen from every point one level up.</summary>
    public static double[] Up(double[][] kernel, double[] f)
    {
        var result = new double[kernel.Length];
        for (var i = 0; i < result.Length; i++)
        {
            result[i] = Dot(kernel[i], f);
        }

        return result;
    }

    /// <summary>The law one level down that follows from a law one level up.</summary>
    public static double[] Down(double[][] kernel, double[] law)
    {
        var result = new double[law.Length];
        for (var i = 0; i < law.Length; i++)
        {
            for (var j = 0; j < result.Length; j++)
            {
                result[j] += law[i] * kernel[i][j];
            }
        }

        return result;
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

    /// <summary>Bayes' rule on the grid: the law is weighed by a likelihood and scaled.</summary>
    /// <returns>The logarithm of the probability of what was seen.</returns>
    public static double Weigh(double[] law, double[] likelihood)
    {
        for (var i = 0; i < law.Length; i++)
        {
            law[i] *= likelihood[i];
        }

        return Math.Log(Scale(law));
    }

    public static void Add(double[] sum, ReadOnlySpan<double> values, double weight)
    {
        for (var i = 0; i < sum.Length; i++)
        {
            sum[i] += weight * values[i];
        }
    }

    /// <summary>Logarithm of the sum of exponentials.</summary>
    public static double LogSum(IEnumerable<double> logs)
    {
        var values = logs.ToArray();
        var top = Exp(values);
        return top + Math.Log(values.Sum());
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

    private static double Dot(double[] a, double[] b)
    {
        var sum = 0.0;
        for (var i = 0; i < a.Length; i++)
        {
            sum += a[i] * b[i];
        }

        return sum;
    }
}

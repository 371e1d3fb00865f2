using System.Numerics;
using System.Runtime.InteropServices;

namespace ReedShop.Planning.Yields;

/// <summary>Rows of many beta-binomial laws at once, several side by side, weighed and added.</summary>
internal static class BetaBinomialRows
{
    /// <summary>Adds the probabilities of 0..n survivors of each law, times its weight, to a row of n + 1.</summary>
    public static void Add(Span<double> row, ReadOnlySpan<(double Weight, BetaBinomial Law)> laws)
    {
        var up = new Vector<double>[row.Length];
        var down = new Vector<double>[row.Length];
        for (var first = 0; first < laws.Length; first += Vector<double>.Count)
        {
            AddSome(row, laws[first..Math.Min(laws.Length, first + Vector<double>.Count)], up, down);
        }
    }

    /// <summary>At most as many laws as stand side by side.</summary>
    private static void AddSome(
        Span<double> row,
        ReadOnlySpan<(double Weight, BetaBinomial Law)> laws,
        Vector<double>[] up,
        Vector<double>[] down
    )
    {
        // From the middle of each law outwards nothing can underflow that matters.
        var n = row.Length - 1;
        var means = new double[Vector<double>.Count];
        var clumpings = new double[Vector<double>.Count];
        var middles = new double[Vector<double>.Count];
        for (var lane = 0; lane < laws.Length; lane++)
        {
            (means[lane], clumpings[lane]) = laws[lane].Law;
            middles[lane] = Math.Clamp((int)(means[lane] * (n + 1)), 0, n);
        }

        var ratios = new Ratios(new(means), new(clumpings), n);
        var highest = n - (int)middles[..laws.Length].Min();
        var lowest = (int)middles[..laws.Length].Max();
        var total = Outwards(ratios, new(middles), highest, up, down: false);
        total += Outwards(ratios, new(middles), lowest, down, down: true) - Vector<double>.One;
        for (var lane = 0; lane < laws.Length; lane++)
        {
            var middle = (int)middles[lane];
            var scale = laws[lane].Weight / total[lane];
            var rising = MemoryMarshal.Cast<Vector<double>, double>(up)[lane..];
            var falling = MemoryMarshal.Cast<Vector<double>, double>(down)[lane..];
            for (var k = middle; k <= n; k++)
            {
                row[k] += scale * rising[(k - middle) * Vector<double>.Count];
            }

            for (var k = middle - 1; k >= 0; k--)
            {
                row[k] += scale * falling[(middle - k) * Vector<double>.Count];
            }
        }
    }

    /// <summary>Probabilities over that of the middle, and their sum; 0 beyond the ends.</summary>
    private static Vector<double> Outwards(
        Ratios ratios,
        Vector<double> middle,
        int steps,
        Vector<double>[] values,
        bool down
    )
    {
        var value = values[0] = Vector<double>.One;
        var sum = value;
        var k = down ? middle - Vector<double>.One : middle;
        for (var i = 1; i <= steps; i++)
        {
            value = down ? ratios.Down(value, k) : ratios.Up(value, k);
            values[i] = value;
            sum += value;
            k += down ? -Vector<double>.One : Vector<double>.One;
        }

        return sum;
    }

    /// <summary>Ratios of two neighbouring probabilities of laws side by side.</summary>
    private readonly struct Ratios(Vector<double> mean, Vector<double> clumping, int n)
    {
        private readonly Vector<double> all = new(n);
        private readonly Vector<double> loss = Vector<double>.One - mean;

        /// <summary>From the probability of k survivors to that of k + 1.</summary>
        public Vector<double> Up(Vector<double> value, Vector<double> k) =>
            Vector.ConditionalSelect(Vector.LessThan(k, all), value * (More(k) / Fewer(k)), Vector<double>.Zero);

        /// <summary>From the probability of k + 1 survivors to that of k.</summary>
        public Vector<double> Down(Vector<double> value, Vector<double> k) =>
            Vector.ConditionalSelect(
                Vector.GreaterThanOrEqual(k, Vector<double>.Zero),
                value * (Fewer(k) / More(k)),
                Vector<double>.Zero
            );

        private Vector<double> More(Vector<double> k) => (all - k) * (mean + (k * clumping));

        private Vector<double> Fewer(Vector<double> k) =>
            (k + Vector<double>.One) * (loss + ((all - k - Vector<double>.One) * clumping));
    }
}

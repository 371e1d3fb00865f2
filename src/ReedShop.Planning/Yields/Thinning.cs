using System.Numerics;
using System.Runtime.InteropServices;

namespace ReedShop.Planning.Yields;

/// <summary>
/// Blanks of one batch are exchangeable, so that leaving any one of them out of n + 1 gives the law of survivors of n:
/// one row says all about smaller batches, whatever law it came from.
/// </summary>
internal static class Thinning
{
    /// <summary>Rows of survivors for every batch from a smallest up to that of the given row.</summary>
    public static double[][] Rows(double[] widest, int fewest)
    {
        var most = widest.Length - 1;
        var rows = new double[most + 1 - fewest][];
        rows[^1] = widest;
        for (var n = most - 1; n >= fewest; n--)
        {
            var row = rows[n - fewest] = new double[n + 1];
            LeaveOneOut(rows[n + 1 - fewest], row);
        }

        return rows;
    }

    /// <summary>Survivors of a batch whose size is itself known by a law as long as the widest row.</summary>
    public static double[] Mix(double[] widest, double[] sizes)
    {
        // Rows are used once and overwritten: they stay in the fastest memory, however large the batch.
        var mix = new double[sizes.Length];
        var row = (double[])widest.Clone();
        for (var n = sizes.Length - 1; n >= 0; n--)
        {
            Grid.Add(mix.AsSpan(0, n + 1), row, sizes[n]);
            LeaveOneOut(row.AsSpan(0, n + 1), row.AsSpan(0, n));
        }

        return mix;
    }

    /// <summary>The row may be written over the wider one.</summary>
    private static void LeaveOneOut(ReadOnlySpan<double> wider, Span<double> row)
    {
        var all = new Vector<double>(row.Length);
        var wide = MemoryMarshal.Cast<double, Vector<double>>(row);
        var here = MemoryMarshal.Cast<double, Vector<double>>(wider);
        var dies = new Vector<double>(row.Length) - Vector<double>.Indices;
        var lives = Vector<double>.One + Vector<double>.Indices;
        var stride = new Vector<double>(Vector<double>.Count);
        for (var i = 0; i < wide.Length; i++)
        {
            var next = new Vector<double>(wider[((i * Vector<double>.Count) + 1)..]);
            wide[i] = ((here[i] * dies) + (next * lives)) / all;
            dies -= stride;
            lives += stride;
        }

        for (var k = wide.Length * Vector<double>.Count; k < row.Length; k++)
        {
            row[k] = ((wider[k] * (row.Length - k)) + (wider[k + 1] * (k + 1))) / row.Length;
        }
    }
}

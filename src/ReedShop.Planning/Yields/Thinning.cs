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
            rows[n - fewest] = LeaveOneOut(rows[n + 1 - fewest]);
        }

        return rows;
    }

    private static double[] LeaveOneOut(double[] wider)
    {
        var row = new double[wider.Length - 1];
        for (var k = 0; k < row.Length; k++)
        {
            row[k] = ((wider[k] * (row.Length - k)) + (wider[k + 1] * (k + 1))) / row.Length;
        }

        return row;
    }
}

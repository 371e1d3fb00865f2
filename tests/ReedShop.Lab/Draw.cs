namespace ReedShop.Lab;

internal static class Draw
{
    /// <summary>An index drawn by its probability.</summary>
    public static int Index(ReadOnlySpan<double> chances, Random random)
    {
        var left = random.NextDouble();
        var k = 0;
        while (k < chances.Length - 1 && left >= chances[k])
        {
            left -= chances[k++];
        }

        return k;
    }
}

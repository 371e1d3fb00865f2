using ReedShop.Planning.Sizing;

namespace ReedShop.Planning.Promising;

/// <summary>How many blanks of a source cover reeds that are missing.</summary>
internal static class BlanksNeeded
{
    /// <summary>More blanks for one line than this are refused rather than promised blindly.</summary>
    private const int MostBlanksPerLine = 240;

    private const int FirstTableBlanks = 30;

    /// <summary>
    /// A need for more blanks than this for each reed says that little is known, not that cane should be spent.
    /// </summary>
    private const int MostBlanksPerReed = 30;

    /// <summary>More would be no sensible number for so many reeds.</summary>
    public static int MostSensible(int missing) => Math.Min(MostBlanksPerLine, MostBlanksPerReed * missing);

    /// <summary>
    /// The fewest, at most so many, that reach a cover; null where none do. The table of chances grows with the square of
    /// its length, so a short one is tried first.
    /// </summary>
    /// <param name="chances">For each number of blanks up to a length, the chance that they cover the need.</param>
    public static (int Blanks, double Cover)? Fewest(Func<int, double[]> chances, double cover, int most)
    {
        for (var length = Math.Min(most, FirstTableBlanks); length > 0; length = Math.Min(most, 2 * length))
        {
            var table = chances(length);
            if (BatchSizer.Smallest(table, cover) is { } blanks)
            {
                return (blanks, table[blanks]);
            }

            if (length == most)
            {
                return null;
            }
        }

        return null;
    }
}

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Which reeds wait for which batch in one draw, each batch with its own chain, earliest promise first. A draw asks after
/// every counted sitting, so that going through all reeds of the shop each time would cost more than all else.
/// </summary>
internal sealed class PegChains(int roots)
{
    public const int End = -1;

    private readonly int[] first = new int[roots];
    private readonly int[] last = new int[roots];
    private readonly List<int> next = [];

    public void Clear()
    {
        Array.Fill(first, End);
        Array.Fill(last, End);
        next.Clear();
    }

    /// <summary>A peg, the next by number, that waits for a batch, after those that do already.</summary>
    public void Add(int peg, int root)
    {
        while (next.Count <= peg)
        {
            next.Add(End);
        }

        next[peg] = End;
        if (last[root] == End)
        {
            first[root] = peg;
        }
        else
        {
            next[last[root]] = peg;
        }

        last[root] = peg;
    }

    /// <summary>The first that waits for a batch, or <see cref="End"/>.</summary>
    public int First(int root) => first[root];

    public int After(int peg) => next[peg];
}

namespace ReedShop.Planning.Forecasting;

/// <summary>Reeds that others of a draw made before free, and those they take, repeated as the days pass.</summary>
/// <param name="isWanted">By kind, whether anybody here waits for it: what becomes of the others is nobody's concern.</param>
internal sealed class ReedsOfOthers(FreeReeds free, bool[] isWanted)
{
    private ReedsMoved[] moves = [];
    private int next;

    /// <summary>What others take on the first day they have before anybody asks.</summary>
    public void Begin(ReedsMoved[] drawn)
    {
        (moves, next) = (drawn, 0);
        while (next < moves.Length && moves[next] is { Reeds: < 0, Day: 0 })
        {
            Repeat(moves[next++]);
        }
    }

    /// <summary>The next day up to one on which something moved, which it has when this returns; null where there is none.</summary>
    public int? Meet(int day)
    {
        if (next == moves.Length || moves[next].Day > day)
        {
            return null;
        }

        var moved = moves[next].Day;
        while (next < moves.Length && moves[next].Day == moved)
        {
            Repeat(moves[next++]);
        }

        return moved;
    }

    private void Repeat(ReedsMoved move)
    {
        if (isWanted[move.Place])
        {
            free.Repeat(move);
        }
    }
}

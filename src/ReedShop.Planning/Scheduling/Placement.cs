using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>The exact cheapest place of one batch among the others.</summary>
internal sealed class Placement(WorkTable table, Occupancy occupancy, Announced? announced = null)
{
    /// <summary>Most places are found fewer days early than this; others widen the window.</summary>
    private const int LookBack = 24;

    /// <summary>Days that are looked through at first.</summary>
    private const int Window = 48;

    private readonly PlacementTable rows = new(table, occupancy, announced);

    /// <summary>
    /// Writes the days of the cheapest place and says its cost; false where no place costs less than
    /// <paramref name="limit"/>. Looks through a window of days about the due day and widens it until nothing outside
    /// could be cheaper: a stay that begins before the window costs at least the days by which it is early or longer
    /// than it need be.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool TryFind(int batch, in Aim aim, long limit, in Lean lean, Span<int> days, out long cost)
    {
        var release = table.Release[batch];
        var stay = table.LeastStay[batch];
        var last = Math.Min(table.LastFinish, aim.LatestFinish);
        var start = Math.Max(release, Math.Min(aim.DueDay, last) - stay - LookBack);
        var end = Math.Min(last, start + Math.Max(Window - 1, stay));
        while (start <= end)
        {
            rows.Fill(batch, start, end - start + 1, lean);
            var (finish, total) = CheapestFinish(aim, start, last, limit);
            var bound = Math.Min(limit, total / PlacementTable.Scale);
            var after = start + rows.Length;
            var earlierMatters = start > release && bound > aim.DueDay - stay - start;
            var laterMatters = after <= last && bound > aim.FinishCost(after);
            if (!earlierMatters && !laterMatters)
            {
                return Take(finish, aim, limit, batch, days, out cost);
            }

            start = earlierMatters ? Math.Max(release, start - rows.Length) : start;
            end = laterMatters ? Math.Min(last, end + rows.Length) : end;
        }

        cost = limit;
        return false;
    }

    /// <summary>Finishes are tried in the order of what they cost by themselves, until no stay could make up for it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private (int Finish, long Total) CheapestFinish(in Aim aim, int start, int last, long limit)
    {
        var (best, least) = (WorkTable.NoDay, long.MaxValue);
        var finishes = rows.Finishes;
        var stayBase = rows.StayBase;
        var until = Math.Min(last - start, finishes.Length - 1);
        var due = Math.Min(aim.DueDay - start, until);
        for (var day = due; day >= 0 && Worth(aim, start + day, limit, least); day--)
        {
            (best, least) = Cheaper(best, least, day, finishes[day], stayBase, aim.FinishCost(start + day));
        }

        for (var day = Math.Max(0, due + 1); day <= until && Worth(aim, start + day, limit, least); day++)
        {
            (best, least) = Cheaper(best, least, day, finishes[day], stayBase, aim.FinishCost(start + day));
        }

        return (best, least);
    }

    private static bool Worth(in Aim aim, int finish, long limit, long least)
    {
        var cost = aim.FinishCost(finish);
        return cost < limit && cost * PlacementTable.Scale < least;
    }

    private static (int Finish, long Total) Cheaper(
        int best,
        long least,
        int finish,
        int reached,
        int stayBase,
        long finishCost
    )
    {
        var total = reached - stayBase + ((finish + finishCost) * PlacementTable.Scale);
        return reached < PlacementTable.Never && total < least ? (finish, total) : (best, least);
    }

    private bool Take(int finish, in Aim aim, long limit, int batch, Span<int> days, out long cost)
    {
        cost = limit;
        if (finish == WorkTable.NoDay)
        {
            return false;
        }

        rows.Trace(finish, days);
        cost = aim.CostOf(table, batch, days) + (announced?.MoveCost(table.First[batch], days) ?? 0);
        return cost < limit;
    }
}

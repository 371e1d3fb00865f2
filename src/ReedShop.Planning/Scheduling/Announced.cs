namespace ReedShop.Planning.Scheduling;

/// <summary>The days that people were told, and what it costs to move away from them: the nearer, the more.</summary>
internal sealed class Announced
{
    /// <summary>The last day that counts as told; beyond it nothing is lost by moving.</summary>
    public const int LastDay = 21;

    private readonly int[] days;

    public Announced(WorkTable table, Plan current)
    {
        days = new int[table.Minutes.Length];
        Array.Fill(days, WorkTable.NoDay);
        for (var b = 0; b < table.Batches.Length; b++)
        {
            if (current.Days.TryGetValue(table.Batches[b].Id, out var told) && told.Length == table.Sittings(b))
            {
                told.CopyTo(days, table.First[b]);
            }
        }
    }

    /// <summary>Both the day that loses the sitting and the day that gains it change; the nearer one counts.</summary>
    public int MoveCost(int sitting, int day)
    {
        var told = days[sitting];
        return told == WorkTable.NoDay || told == day ? 0 : ReplanCost.MovedDay * Weight(Math.Min(told, day));
    }

    /// <summary>For the sittings of a batch, from its first on.</summary>
    public long MoveCost(int first, ReadOnlySpan<int> chosen)
    {
        var cost = 0L;
        for (var k = 0; k < chosen.Length; k++)
        {
            cost += MoveCost(first + k, chosen[k]);
        }

        return cost;
    }

    private static int Weight(int day) =>
        day switch
        {
            <= 2 => 8,
            <= 7 => 3,
            <= LastDay => 1,
            _ => 0,
        };
}

/// <summary>
/// Units that put the wishes of a replan in order: no day late is worth any number of moves, no move any earliness.
/// </summary>
internal static class ReplanCost
{
    public const int MovedDay = 1000;
    public const long LateDay = 100_000_000;

    public static Aim AimFor(WorkBatch batch)
    {
        var aim = Aim.For(batch);
        return batch.DueDay is null ? aim : aim with { LateDay = LateDay * batch.Weight };
    }
}

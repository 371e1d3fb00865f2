using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>Batches that want the same days, so that taking them out together gives each of them new choices.</summary>
internal sealed class Neighbourhood
{
    private const int MostTries = 400;
    private const int TriesBeforeWider = 60;
    private const int Neighbours = 20;
    private const int MostSeeds = 20;

    /// <summary>Left to chance alone, a favoured batch among many would hardly ever be taken out.</summary>
    private const double ShareWithFavoured = 0.2;

    private readonly Draft draft;
    private readonly WorkTable table;
    private readonly int[] rankByDue;
    private readonly int? inFavourOf;

    /// <param name="inFavourOf">The batch all is done for: what begins after its finish is left alone.</param>
    public Neighbourhood(Draft draft, int? inFavourOf)
    {
        this.draft = draft;
        this.inFavourOf = inFavourOf;
        table = draft.Table;
        rankByDue = new int[table.ByDue.Length];
        for (var rank = 0; rank < rankByDue.Length; rank++)
        {
            rankByDue[table.ByDue[rank]] = rank;
        }
    }

    /// <summary>Chooses one batch, rather a late one, and others that want a day it wants; says how many.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public int Choose(Span<int> chosen, ref Dice dice)
    {
        chosen[0] = Seed(ref dice);
        var (from, until) = Wanted(chosen[0]);
        var day = from + dice.Below(Math.Max(1, until - from + 1));
        var count = 1;
        if (inFavourOf is { } favoured && favoured != chosen[0] && dice.Share() < ShareWithFavoured)
        {
            chosen[count++] = favoured;
        }

        var reach = dice.Below(6);
        for (var tries = 1; count < chosen.Length && tries <= MostTries; tries++)
        {
            var other = DueNear(ref dice, chosen[0], Neighbours * (1 + (tries / TriesBeforeWider)));
            if (IsNear(other, day, reach) && !chosen[..count].Contains(other))
            {
                chosen[count++] = other;
            }

            reach = tries % TriesBeforeWider == 0 ? (2 * reach) + 1 : reach;
        }

        return count;
    }

    /// <summary>A batch whose rank by due day is not far: most of those that want the same days are among them.</summary>
    private int DueNear(ref Dice dice, int batch, int neighbours)
    {
        var rank = rankByDue[batch] + dice.Below((2 * neighbours) + 1) - neighbours;
        return table.ByDue[(uint)rank < (uint)table.ByDue.Length ? rank : dice.Below(table.ByDue.Length)];
    }

    private int Seed(ref Dice dice)
    {
        var seed = dice.Below(table.Batches.Length);
        for (
            var tries = inFavourOf is null ? dice.Below(2) * MostSeeds : MostSeeds;
            tries > 0 && !IsWanted(seed);
            tries--
        )
        {
            seed = dice.Below(table.Batches.Length);
        }

        return seed;
    }

    private bool IsWanted(int batch) =>
        !draft.IsPlanned(batch)
        || (
            inFavourOf is { } favoured
                ? !draft.IsPlanned(favoured) || draft.Start(batch) <= draft.Finish(favoured)
                : draft.IsLate(batch)
        );

    private bool IsNear(int batch, int day, int reach)
    {
        var (from, until) = Wanted(batch);
        return from - reach <= day && day <= until + reach;
    }

    /// <summary>The days a batch takes, and for a late one those it should have taken.</summary>
    private (int From, int Until) Wanted(int batch)
    {
        var due = table.Batches[batch].DueDay ?? 0;
        var ideal = Math.Max(table.Release[batch], due - table.LeastStay[batch]);
        return draft.IsPlanned(batch)
            ? (Math.Min(draft.Start(batch), ideal), draft.Finish(batch))
            : (table.Release[batch], table.Days - 1);
    }
}

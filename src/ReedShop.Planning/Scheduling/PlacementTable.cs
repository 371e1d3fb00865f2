using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// The dynamic programme over sittings and days of one batch: row k holds, for each day of a window, the least cost of
/// holding sittings 0 to k with sitting k on that day, and the row after the last sitting the least cost of that finish
/// day. Costs are in 1/1024. Nights at which the rack has no room part the window; a stay never crosses them, which
/// makes the rack exact although it binds the whole stay. Sixteen days are worked at a time.
/// </summary>
internal sealed class PlacementTable
{
    public const int Scale = 1024;
    public const int Never = 1 << 29;
    private const int Lanes = 16;

    /// <summary>Beyond so many days it is quicker to go day by day than to look back over all of them.</summary>
    private const int LongWindow = 96;

    public const int Draws = 4096;

    private static readonly int[] Chances = DrawChances();

    private readonly WorkTable table;
    private readonly Occupancy occupancy;
    private readonly Announced? announced;
    private readonly int[] costs;
    private readonly int[] nightsBefore;
    private readonly int[] nightsAfter;

    private int batch;
    private int windowStart;

    public PlacementTable(WorkTable table, Occupancy occupancy, Announced? announced)
    {
        this.table = table;
        this.occupancy = occupancy;
        this.announced = announced;
        costs = new int[(table.MostSittings + 1) * (Lanes + table.Stride)];
        nightsBefore = new int[table.Stride];
        nightsAfter = new int[table.Stride];
    }

    /// <summary>Days in the window, a multiple of the days worked at a time.</summary>
    public int Length { get; private set; }

    private bool WholeStay => table.Work.RackCharge == RackCharge.WholeStay;

    /// <summary>Works through a window of at least so many days.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Fill(int number, int start, int days, in Lean lean)
    {
        batch = number;
        windowStart = start;
        Length = (days + Lanes - 1) / Lanes * Lanes;
        var sittings = table.Sittings(batch);
        CountNights();
        for (var k = 0; k < sittings; k++)
        {
            PriceDays(k, lean);
            Restrict(k);
        }

        Begin();
        Row(sittings).Clear();
        for (var k = 1; k <= sittings; k++)
        {
            Follow(k, k == sittings ? table.Gap[table.First[batch] + k - 1] : table.Most[table.First[batch] + k - 1]);
        }
    }

    /// <summary>Least cost of finishing on a day of the window, extra nights included, lateness not.</summary>
    public int CostOfStay(int finish)
    {
        var cost = Row(table.Sittings(batch))[Lanes + finish];
        return cost >= Never ? Never : cost - ((Length - finish + table.LeastStay[batch]) * Scale);
    }

    /// <summary>Writes the days that lead to a finish at its least cost.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Trace(int finish, Span<int> days)
    {
        var day = finish;
        for (var k = days.Length - 1; k >= 0; k--)
        {
            var sitting = table.First[batch] + k;
            var most = k == days.Length - 1 ? table.Gap[sitting] : table.Most[sitting];
            day = CheapestBefore(Row(k), day, table.Gap[sitting], Math.Min(most, Math.Min(day, nightsBefore[day])));
            days[k] = windowStart + day;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static int CheapestBefore(ReadOnlySpan<int> row, int day, int least, int most)
    {
        var best = day - least;
        for (var gap = least + 1; gap <= most; gap++)
        {
            best = row[Lanes + day - gap] < row[Lanes + best] ? day - gap : best;
        }

        return best;
    }

    /// <summary>A row has a margin before its first day, so that looking back needs no special case.</summary>
    private Span<int> Row(int k) => costs.AsSpan(k * (Lanes + Length), Lanes + Length);

    /// <summary>Counts the nights with room on the rack that lie in one run before each day, and after it.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void CountNights()
    {
        var rack = occupancy.Rack[windowStart..];
        var blanks = table.Blanks[batch];
        var nights = 0;
        for (var day = 0; day < Length; day++)
        {
            nightsBefore[day] = nights;
            nights = rack[day] >= blanks ? nights + 1 : 0;
        }

        if (WholeStay)
        {
            return;
        }

        nightsBefore.AsSpan(0, Length).Fill(Never);
        var blocked = rack[Length..].IndexOfAnyInRange(int.MinValue, blanks - 1);
        nights = blocked < 0 ? Never : blocked;
        for (var day = Length - 1; day >= 0; day--)
        {
            nights = rack[day] >= blanks ? nights + 1 : 0;
            nightsAfter[day] = nights;
        }
    }

    /// <summary>What a sitting costs on each day by itself, where it fits.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void PriceDays(int k, in Lean lean)
    {
        var sitting = table.First[batch] + k;
        var row = Row(k);
        row[..Lanes].Fill(Never);
        ref var room = ref MemoryMarshal.GetReference(occupancy.Room(table.SetOf[sitting]).Slice(windowStart, Length));
        ref var free = ref MemoryMarshal.GetReference(occupancy.Room(0).Slice(windowStart, Length));
        ref var chance = ref Chances[(lean.Draw + (97 * k)) % Draws];
        ref var cost = ref row[Lanes];
        var minutes = Vector512.Create(table.Minutes[sitting]);
        var price = Vector512.Create(lean == Lean.None ? table.TiePrice[batch] : lean.SetUpPrice);
        var most = Vector512.Create(lean.Chance);
        for (nuint day = 0; day < (nuint)Length; day += Lanes)
        {
            var offered = Vector512.LoadUnsafe(ref room, day);
            var unpaid = Vector512.LoadUnsafe(ref free, day) - offered;
            var priced = (unpaid * price) + (Vector512.LoadUnsafe(ref chance, day) * most);
            var fits = Vector512.GreaterThanOrEqual(offered, minutes);
            Vector512.ConditionalSelect(fits, priced, Vector512.Create(Never)).StoreUnsafe(ref cost, day);
        }
    }

    /// <summary>What binds few batches: a pinned day, announced days, a rack charged by required nights.</summary>
    private void Restrict(int k)
    {
        var sitting = table.First[batch] + k;
        var row = Row(k)[Lanes..];
        var pinned = table.Pinned[sitting];
        if (pinned == WorkTable.NoDay && announced is null && WholeStay)
        {
            return;
        }

        for (var day = 0; day < row.Length; day++)
        {
            var allowed =
                (pinned == WorkTable.NoDay || pinned == windowStart + day)
                && (WholeStay || nightsAfter[day] >= table.Nights[sitting]);
            var moved = announced?.MoveCost(sitting, windowStart + day) ?? 0;
            row[day] = allowed ? Math.Min(Never, row[day] + (moved * Scale)) : Never;
        }
    }

    /// <summary>
    /// An early first sitting costs its extra nights. Blanks already on the rack lie there from day 0 to the first
    /// sitting, so that it may not be later than the first night without room, nor than their most nights allow.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Begin()
    {
        var row = Row(0)[Lanes..];
        for (var day = 0; day < row.Length; day++)
        {
            row[day] = Math.Min(Never, row[day] + ((Length - day) * Scale));
        }

        if (table.Batches[batch].LatestStart is { } latestStart)
        {
            row[Math.Clamp(latestStart - windowStart + 1, 0, Length)..].Fill(Never);
        }

        if (table.Batches[batch].OnRack)
        {
            var blocked = occupancy.Rack.IndexOfAnyInRange(int.MinValue, table.Blanks[batch] - 1);
            var latest = blocked < 0 ? Length - 1 : blocked - windowStart;
            row[Math.Clamp(latest + 1, 0, Length)..].Fill(Never);
        }
    }

    /// <summary>Adds to each day of a row the cheapest day before it in the row above, by nights with room.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Follow(int k, int mostNights)
    {
        var least = table.Gap[table.First[batch] + k - 1];
        if (mostNights >= Length && Length > LongWindow)
        {
            FollowAnyRest(k, least);
            return;
        }

        ref var above = ref MemoryMarshal.GetReference(Row(k - 1));
        ref var row = ref Row(k)[Lanes];
        var never = Vector512.Create(Never);
        for (var day = 0; day < Length; day += Lanes)
        {
            var passed = Vector512.LoadUnsafe(ref nightsBefore[0], (nuint)day);
            var cheapest = never;
            for (var gap = least; gap <= Math.Min(mostNights, day + Lanes - 1); gap++)
            {
                var reached = Vector512.LoadUnsafe(ref above, (nuint)(Lanes + day - gap));
                var passable = Vector512.GreaterThanOrEqual(passed, Vector512.Create(gap));
                cheapest = Vector512.Min(cheapest, Vector512.ConditionalSelect(passable, reached, never));
            }

            var own = Vector512.LoadUnsafe(ref row, (nuint)day);
            Vector512.Min(never, cheapest + own).StoreUnsafe(ref row, (nuint)day);
        }
    }

    /// <summary>The same where rest may last as long as it likes: what reached the day before reaches this one too.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void FollowAnyRest(int k, int least)
    {
        var above = Row(k - 1)[Lanes..];
        var row = Row(k)[Lanes..];
        var cheapest = Never;
        for (var day = 0; day < Length; day++)
        {
            cheapest = nightsBefore[day] > least ? cheapest : Never;
            if (day >= least && nightsBefore[day] >= least)
            {
                cheapest = Math.Min(cheapest, above[day - least]);
            }

            row[day] = Math.Min(Never, row[day] + cheapest);
        }
    }

    private static int[] DrawChances()
    {
        var dice = new Dice(1);
        var chances = new int[2 * Draws];
        foreach (ref var chance in chances.AsSpan())
        {
            chance = dice.Below(Scale);
        }

        return chances;
    }
}

using System.Runtime.CompilerServices;
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
    private const int Lanes = RackNights.Lanes;

    private readonly WorkTable table;
    private readonly Occupancy occupancy;
    private readonly RackNights nights;
    private readonly DayPrices prices;
    private readonly int[] costs;
    private readonly int[] reached;

    private int batch;
    private int windowStart;

    public PlacementTable(WorkTable table, Occupancy occupancy, Announced? announced)
    {
        this.table = table;
        this.occupancy = occupancy;
        nights = new RackNights(table, occupancy);
        prices = new DayPrices(table, occupancy, nights, announced);
        costs = new int[table.MostSittings * (Lanes + table.Stride)];
        reached = new int[(table.MostSittings + 1) * table.Stride];
    }

    /// <summary>Days in the window, a multiple of the days worked at a time.</summary>
    public int Length { get; private set; }

    /// <summary>
    /// Least cost by finish day of the window, extra nights included, lateness not; counted from
    /// <see cref="StayBase"/> less one for each day.
    /// </summary>
    public ReadOnlySpan<int> Finishes => Reached(table.Sittings(batch));

    /// <summary>What a finish on the first day of the window holds beyond its cost.</summary>
    public int StayBase => (Length + table.LeastStay[batch]) * Scale;

    /// <summary>Works through a window of at least so many days.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Fill(int number, int start, int days, in Lean lean)
    {
        batch = number;
        windowStart = start;
        Length = (days + Lanes - 1) / Lanes * Lanes;
        nights.Count(batch, start, Length);
        var (first, sittings) = (table.First[batch], table.Sittings(batch));
        var own = lean == Lean.None ? lean with { SetUpPrice = table.TiePrice[batch] } : lean;
        for (var k = 0; k < sittings; k++)
        {
            Margin(k).Fill(Never);
            prices.Fill(first + k, k, start, Row(k), own);
            if (k == 0)
            {
                Begin();
            }
            else
            {
                Rest(k, first + k - 1);
                Add(Reached(k), Row(k));
            }
        }

        Reach(sittings, table.Gap[first + sittings - 1], table.Gap[first + sittings - 1]);
    }

    /// <summary>Writes the days that lead to a finish at its least cost; of equal rests the shorter.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void Trace(int finish, Span<int> days)
    {
        var day = finish;
        for (var k = days.Length - 1; k >= 0; k--)
        {
            var row = Row(k);
            var cost = Reached(k + 1)[day];
            day -= LeastNights(table.First[batch] + k, day);
            while (row[day] != cost)
            {
                day--;
            }

            days[k] = windowStart + day;
        }
    }

    /// <summary>A row has a margin before its first day, so that looking back needs no special case.</summary>
    private Span<int> Margin(int k) => costs.AsSpan(k * (Lanes + Length), Lanes);

    private Span<int> Row(int k) => costs.AsSpan((k * (Lanes + Length)) + Lanes, Length);

    /// <summary>The least cost from which each day is reached after sitting k - 1 and its rest.</summary>
    private Span<int> Reached(int k) => reached.AsSpan(k * Length, Length);

    private int LeastNights(int sitting, int day) =>
        table.Gap[sitting] + (table.TooSoon[sitting]?[windowStart + day] < 0 ? 1 : 0);

    /// <summary>A rest whose hours are not up after its least nights takes one more.</summary>
    private void Rest(int k, int sitting)
    {
        var (least, most) = (table.Gap[sitting], table.Most[sitting]);
        if (table.TooSoon[sitting] is not { } tooSoon)
        {
            Reach(k, least, most);
            return;
        }

        Reach(k, least + 1, most);
        ref var passed = ref Unsafe.AsRef(in nights.Before[0]);
        Rests.Exactly(ref Row(k - 1)[0], ref passed, ref tooSoon[windowStart], ref Reached(k)[0], least, Length);
    }

    private void Reach(int k, int least, int most)
    {
        ref var above = ref Row(k - 1)[0];
        ref var passed = ref Unsafe.AsRef(in nights.Before[0]);
        if (most >= Length)
        {
            Rests.AtLeast(ref above, ref passed, ref Reached(k)[0], least, Length);
        }
        else
        {
            Rests.Within(ref above, ref passed, ref Reached(k)[0], (least, most), Length);
        }
    }

    /// <summary>
    /// The first sitting may have a latest day. Blanks already on the rack lie there from day 0 up to it, so that it may
    /// not be later than the first night without room either.
    /// </summary>
    private void Begin()
    {
        if (table.Batches[batch].LatestStart is { } latestStart)
        {
            Row(0)[Math.Clamp(latestStart - windowStart + 1, 0, Length)..].Fill(Never);
        }

        if (table.Batches[batch].OnRack)
        {
            var blocked = occupancy.Rack.IndexOfAnyInRange(int.MinValue, table.Blanks[batch] - 1);
            var latest = blocked < 0 ? Length - 1 : blocked - windowStart;
            Row(0)[Math.Clamp(latest + 1, 0, Length)..].Fill(Never);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Add(Span<int> reached, Span<int> row)
    {
        ref var from = ref reached[0];
        ref var to = ref row[0];
        for (nuint day = 0; day < (nuint)row.Length; day += Lanes)
        {
            var sum = Vector512.LoadUnsafe(ref from, day) + Vector512.LoadUnsafe(ref to, day);
            Vector512.Min(sum, Vector512.Create(Never)).StoreUnsafe(ref to, day);
        }
    }
}

using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ReedShop.Planning.Scheduling;

/// <summary>For each day of a window, how many nights in a row have room on the rack for the blanks of one batch.</summary>
internal sealed class RackNights(WorkTable table, Occupancy occupancy)
{
    public const int Lanes = 16;

    /// <summary>More nights than any window has.</summary>
    public const int Ever = 1 << 29;

    private readonly int[] before = new int[table.Stride];
    private readonly int[] after = new int[table.Stride];

    /// <summary>Nights with room that lie in one run before each day, within the window.</summary>
    public ReadOnlySpan<int> Before => before;

    /// <summary>Nights with room in one run from each day on; counted only where required nights alone are charged.</summary>
    public ReadOnlySpan<int> After => after;

    public void Count(int batch, int start, int days)
    {
        var blanks = table.Blanks[batch];
        if (table.Work.RackCharge == RackCharge.WholeStay)
        {
            CountBefore(occupancy.Rack.Room[start..], blanks, days);
        }
        else
        {
            before.AsSpan(0, days).Fill(Ever);
            CountAfter(occupancy.Rack.Room[start..], blanks, days);
        }
    }

    /// <summary>Most runs of sixteen nights have room all through, which takes one look.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void CountBefore(ReadOnlySpan<int> rack, int blanks, int days)
    {
        ref var room = ref MemoryMarshal.GetReference(rack);
        ref var counted = ref before[0];
        var nights = 0;
        for (var day = 0; day < days; day += Lanes)
        {
            if (Vector512.GreaterThanOrEqualAll(Vector512.LoadUnsafe(ref room, (nuint)day), Vector512.Create(blanks)))
            {
                (Vector512<int>.Indices + Vector512.Create(nights)).StoreUnsafe(ref counted, (nuint)day);
                nights += Lanes;
                continue;
            }

            for (var at = day; at < day + Lanes; at++)
            {
                before[at] = nights;
                nights = rack[at] >= blanks ? nights + 1 : 0;
            }
        }
    }

    private void CountAfter(ReadOnlySpan<int> rack, int blanks, int days)
    {
        var blocked = rack[days..].IndexOfAnyInRange(int.MinValue, blanks - 1);
        var nights = blocked < 0 ? Ever : blocked;
        for (var day = days - 1; day >= 0; day--)
        {
            nights = rack[day] >= blanks ? nights + 1 : 0;
            after[day] = nights;
        }
    }
}

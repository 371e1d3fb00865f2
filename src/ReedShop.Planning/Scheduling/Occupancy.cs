using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// What the days and nights still offer. Room is kept for every set of keys, less the set-ups of that set which nobody
/// has paid on the day, so that whether a sitting fits is one comparison.
/// </summary>
internal sealed class Occupancy
{
    private readonly WorkTable table;
    private readonly int[] room;
    private readonly int[] rack;
    private readonly int[] sharing;

    public Occupancy(WorkTable table)
    {
        this.table = table;
        room = new int[table.Sets.Length * table.Stride];
        rack = new int[table.Stride];
        sharing = new int[table.Days * table.KeyMinutes.Length];
        Clear();
    }

    /// <summary>Minutes free for a sitting with this set of keys, by day. Past the horizon there are none.</summary>
    public ReadOnlySpan<int> Room(int set) => room.AsSpan(set * table.Stride, table.Stride);

    /// <summary>Blanks that still find room, by night.</summary>
    public ReadOnlySpan<int> Rack => rack;

    /// <summary>Set-up minutes that a set would still have to pay on a day.</summary>
    public int Unpaid(int set, int day) => room[day] - room[(set * table.Stride) + day];

    public void Clear()
    {
        Array.Fill(room, int.MinValue / 2);
        Array.Fill(rack, table.Work.RackBlanks);
        Array.Clear(sharing);
        for (var set = 0; set < table.Sets.Length; set++)
        {
            var setUps = table.Sets[set].Sum(key => table.KeyMinutes[key]);
            for (var day = 0; day < table.Days; day++)
            {
                room[(set * table.Stride) + day] = table.Work.OpenMinutes[day] - setUps;
            }
        }
    }

    public void CopyFrom(Occupancy other)
    {
        other.room.CopyTo(room, 0);
        other.rack.CopyTo(rack, 0);
        other.sharing.CopyTo(sharing, 0);
    }

    public void Put(int batch, ReadOnlySpan<int> days) => Charge(batch, days, 1);

    public void Take(int batch, ReadOnlySpan<int> days) => Charge(batch, days, -1);

    /// <summary>Whether these days and all nights are kept within what they offer.</summary>
    public bool Holds(ReadOnlySpan<int> days)
    {
        foreach (var day in days)
        {
            if (room[day] < 0)
            {
                return false;
            }
        }

        return !rack.AsSpan().ContainsAnyInRange(int.MinValue, -1);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Charge(int batch, ReadOnlySpan<int> days, int sign)
    {
        var first = table.First[batch];
        for (var k = 0; k < days.Length; k++)
        {
            ChargeDay(first + k, days[k], sign);
        }

        ChargeNights(batch, days, sign * table.Blanks[batch]);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ChargeDay(int sitting, int day, int sign)
    {
        var minutes = sign * table.Minutes[sitting];
        for (var at = day; at < room.Length; at += table.Stride)
        {
            room[at] -= minutes;
        }

        foreach (var key in table.Sets[table.SetOf[sitting]])
        {
            ref var sharers = ref sharing[(day * table.KeyMinutes.Length) + key];
            var alone = (sign > 0 ? sharers : sharers - 1) == 0;
            sharers += sign;
            if (alone)
            {
                ChargeSetUp(key, day, sign);
            }
        }
    }

    /// <summary>Sets with the key had its minutes set aside already; only the others lose them.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void ChargeSetUp(int key, int day, int sign)
    {
        var minutes = sign * table.KeyMinutes[key];
        foreach (var set in table.SetsWithout[key])
        {
            room[(set * table.Stride) + day] -= minutes;
        }
    }

    private void ChargeNights(int batch, ReadOnlySpan<int> days, int blanks)
    {
        var first = table.First[batch];
        if (table.Batches[batch].OnRack)
        {
            ChargeNights(0, days[0], blanks);
        }

        if (table.Work.RackCharge == RackCharge.WholeStay)
        {
            ChargeNights(days[0], days[^1] + table.Gap[first + days.Length - 1], blanks);
            return;
        }

        for (var k = 0; k < days.Length; k++)
        {
            ChargeNights(days[k], days[k] + table.Nights[first + k], blanks);
        }
    }

    private void ChargeNights(int from, int until, int blanks)
    {
        foreach (ref var night in rack.AsSpan(from, Math.Min(until, rack.Length) - from))
        {
            night -= blanks;
        }
    }
}

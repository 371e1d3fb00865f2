using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>What the days and nights still offer, and by set of keys the set-ups that nobody has paid on a day.</summary>
internal sealed class Occupancy
{
    private readonly WorkTable table;
    private readonly int[] free;
    private readonly int[] unpaid;
    private readonly int[] rack;
    private readonly int[] sharing;

    public Occupancy(WorkTable table)
    {
        this.table = table;
        free = new int[table.Stride];
        unpaid = new int[table.Sets.Length * table.Stride];
        rack = new int[table.Stride];
        sharing = new int[table.Days * table.KeyMinutes.Length];
        Clear();
    }

    /// <summary>Minutes free by day. Past the horizon there are none.</summary>
    public ReadOnlySpan<int> Free => free;

    /// <summary>Blanks that still find room, by night.</summary>
    public ReadOnlySpan<int> Rack => rack;

    /// <summary>Set-up minutes that a sitting with this set of keys would have to pay, by day.</summary>
    public ReadOnlySpan<int> Unpaid(int set) => unpaid.AsSpan(set * table.Stride, table.Stride);

    public void Clear()
    {
        Array.Fill(free, int.MinValue / 2);
        Array.Fill(rack, table.Work.RackBlanks);
        Array.Clear(sharing);
        for (var day = 0; day < table.Days; day++)
        {
            free[day] = table.Work.OpenMinutes[day];
        }

        for (var set = 0; set < table.Sets.Length; set++)
        {
            unpaid.AsSpan(set * table.Stride, table.Stride).Fill(table.Sets[set].Sum(key => table.KeyMinutes[key]));
        }
    }

    public void CopyFrom(Occupancy other)
    {
        other.free.CopyTo(free, 0);
        other.unpaid.CopyTo(unpaid, 0);
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
            if (free[day] < 0)
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
        free[day] -= sign * table.Minutes[sitting];
        foreach (var key in table.Sets[table.SetOf[sitting]])
        {
            ref var sharers = ref sharing[(day * table.KeyMinutes.Length) + key];
            var alone = (sign > 0 ? sharers : sharers - 1) == 0;
            sharers += sign;
            if (alone)
            {
                PaySetUp(key, day, sign * table.KeyMinutes[key]);
            }
        }
    }

    private void PaySetUp(int key, int day, int minutes)
    {
        free[day] -= minutes;
        foreach (var set in table.SetsWith[key])
        {
            unpaid[(set * table.Stride) + day] -= minutes;
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

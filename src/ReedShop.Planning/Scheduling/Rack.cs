namespace ReedShop.Planning.Scheduling;

/// <summary>Blanks that still find room on the rack, by night.</summary>
internal sealed class Rack(WorkTable table)
{
    private readonly int[] room = new int[table.Stride];

    public ReadOnlySpan<int> Room => room;

    public bool IsOverfull => room.AsSpan().ContainsAnyInRange(int.MinValue, -1);

    public void Clear() => Array.Fill(room, table.Work.RackBlanks);

    public void CopyFrom(Rack other) => other.room.CopyTo(room, 0);

    /// <summary>Charges a batch on its days, or takes its charge back where the sign is -1.</summary>
    public void Charge(int batch, ReadOnlySpan<int> days, int sign)
    {
        var (first, blanks) = (table.First[batch], sign * table.Blanks[batch]);
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

    /// <summary>Charges so many blanks to a run of nights, or takes them back where they are negative.</summary>
    public void ChargeNights(int from, int until, int blanks)
    {
        foreach (ref var night in room.AsSpan(from, Math.Min(until, room.Length) - from))
        {
            night -= blanks;
        }
    }

    /// <summary>The last night of a run on which so many blanks find no room; null when all have it.</summary>
    public int? LastBlocked(int blanks, int from, int until)
    {
        var blocked = Room[from..Math.Max(from, until)].LastIndexOfAnyInRange(int.MinValue, blanks - 1);
        return blocked < 0 ? null : from + blocked;
    }
}

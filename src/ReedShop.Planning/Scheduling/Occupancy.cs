using System.Runtime.CompilerServices;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// What the days and nights still offer: minutes by person, the set-ups that a person has not paid on a day, blanks of
/// tiring work, and room on the rack.
/// </summary>
internal sealed class Occupancy
{
    private readonly WorkTable table;
    private readonly int[] free;
    private readonly int[] unpaid;
    private readonly int[] sharing;
    private readonly int[] rested;
    private readonly (int[] Free, int[] Unpaid, int[] Rested) atFirst;

    public Occupancy(WorkTable table)
    {
        this.table = table;
        free = new int[table.People * table.Stride];
        unpaid = new int[table.People * table.SetUps.Count * table.Stride];
        sharing = new int[table.People * table.Days * table.SetUps.KeyMinutes.Length];
        rested = new int[table.TiringWork.Length * table.Stride];
        Rack = new Rack(table);
        atFirst = Empty();
        Clear();
    }

    public Rack Rack { get; }

    /// <summary>Minutes a person has free, by day. Past the horizon there are none.</summary>
    public ReadOnlySpan<int> Free(int person) => free.AsSpan(person * table.Stride, table.Stride);

    /// <summary>Set-up minutes a person would have to pay for a sitting with this set of keys, by day.</summary>
    public ReadOnlySpan<int> Unpaid(int person, int set) => unpaid.AsSpan(Row(person, set), table.Stride);

    /// <summary>Blanks of tiring work a day may still see.</summary>
    public ReadOnlySpan<int> Rested(int tiring) => rested.AsSpan(tiring * table.Stride, table.Stride);

    public void Clear()
    {
        atFirst.Free.CopyTo(free, 0);
        atFirst.Unpaid.CopyTo(unpaid, 0);
        atFirst.Rested.CopyTo(rested, 0);
        Array.Clear(sharing);
        Rack.Clear();
    }

    /// <summary>What an empty bench offers: thousands of draws begin with it.</summary>
    private (int[] Free, int[] Unpaid, int[] Rested) Empty()
    {
        var empty = (Free: new int[free.Length], Unpaid: new int[unpaid.Length], Rested: new int[rested.Length]);
        Array.Fill(empty.Free, int.MinValue / 2);
        for (var person = 0; person < table.People; person++)
        {
            for (var day = 0; day < table.Days; day++)
            {
                empty.Free[(person * table.Stride) + day] = table.Work.MinutesOf(person, day);
            }

            for (var set = 0; set < table.SetUps.Count; set++)
            {
                empty.Unpaid.AsSpan(Row(person, set), table.Stride).Fill(table.SetUps.Minutes[set]);
            }
        }

        for (var tiring = 0; tiring < table.TiringWork.Length; tiring++)
        {
            for (var day = 0; day < table.Days; day++)
            {
                empty.Rested[(tiring * table.Stride) + day] = table.Work.MostBlanksOn(table.TiringWork[tiring], day);
            }
        }

        return empty;
    }

    /// <summary>The same with other minutes for the maker.</summary>
    public void Clear(ReadOnlySpan<int> openMinutes)
    {
        Clear();
        openMinutes.CopyTo(free);
    }

    public void CopyFrom(Occupancy other)
    {
        other.free.CopyTo(free, 0);
        other.unpaid.CopyTo(unpaid, 0);
        other.sharing.CopyTo(sharing, 0);
        other.rested.CopyTo(rested, 0);
        Rack.CopyFrom(other.Rack);
    }

    /// <summary>
    /// Who should do a sitting on a day: of those who have the minutes, the one with least to set up, then with least
    /// time to spare. Where nobody has them, the one who lacks least.
    /// </summary>
    public int PersonFor(int sitting, int day)
    {
        var best = 0;
        for (var person = 1; person < table.People; person++)
        {
            best = IsBetter(sitting, day, person, best) ? person : best;
        }

        return best;
    }

    /// <summary>Whether this person has the minutes for a sitting on a day.</summary>
    public bool HasTime(int sitting, int day, int person) => Spare(sitting, day, person) >= 0;

    /// <summary>Whether somebody has the minutes for a sitting on a day, and the day the blanks.</summary>
    public bool Fits(int sitting, int day) =>
        Spare(sitting, day, PersonFor(sitting, day)) >= 0
        && (
            table.Tiring[sitting] < 0
            || rested[(table.Tiring[sitting] * table.Stride) + day] >= table.TiringBlanks[sitting]
        );

    public void Put(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> people) => Charge(batch, days, people, 1);

    public void Take(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> people) => Charge(batch, days, people, -1);

    /// <summary>Whether these days and all nights are kept within what they offer.</summary>
    public bool Holds(ReadOnlySpan<int> days)
    {
        foreach (var day in days)
        {
            for (var person = 0; person < table.People; person++)
            {
                if (free[(person * table.Stride) + day] < 0)
                {
                    return false;
                }
            }

            for (var at = day; at < rested.Length; at += table.Stride)
            {
                if (rested[at] < 0)
                {
                    return false;
                }
            }
        }

        return !Rack.IsOverfull;
    }

    /// <summary>Charges a sitting to the day of a person, or takes the charge back where the sign is -1.</summary>
    public void ChargeDay(int sitting, int day, int person, int sign) => ChargeDay(table, sitting, day, person, sign);

    /// <summary>The same for a sitting of another workload of this bench.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public void ChargeDay(WorkTable of, int sitting, int day, int person, int sign)
    {
        free[(person * table.Stride) + day] -= sign * of.Minutes[sitting];
        foreach (var key in of.SetUps.Keys[of.SetUps.Of[sitting]])
        {
            ref var sharers = ref sharing[(((person * table.Days) + day) * table.SetUps.KeyMinutes.Length) + key];
            var alone = (sign > 0 ? sharers : sharers - 1) == 0;
            sharers += sign;
            if (alone)
            {
                PaySetUp(key, day, person, sign * table.SetUps.KeyMinutes[key]);
            }
        }

        if (of.Tiring[sitting] >= 0)
        {
            rested[(of.Tiring[sitting] * table.Stride) + day] -= sign * of.TiringBlanks[sitting];
        }
    }

    private int Row(int person, int set) => ((person * table.SetUps.Count) + set) * table.Stride;

    private int Spare(int sitting, int day, int person) =>
        free[(person * table.Stride) + day]
        - unpaid[Row(person, table.SetUps.Of[sitting]) + day]
        - table.Minutes[sitting];

    private bool IsBetter(int sitting, int day, int person, int than)
    {
        var (spare, other) = (Spare(sitting, day, person), Spare(sitting, day, than));
        if (spare < 0 || other < 0)
        {
            return spare > other;
        }

        var set = table.SetUps.Of[sitting];
        var setUps = unpaid[Row(person, set) + day] - unpaid[Row(than, set) + day];
        return setUps < 0 || (setUps == 0 && spare < other);
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Charge(int batch, ReadOnlySpan<int> days, ReadOnlySpan<int> people, int sign)
    {
        var first = table.First[batch];
        for (var k = 0; k < days.Length; k++)
        {
            ChargeDay(first + k, days[k], people[k], sign);
        }

        Rack.Charge(batch, days, sign);
    }

    private void PaySetUp(int key, int day, int person, int minutes)
    {
        free[(person * table.Stride) + day] -= minutes;
        foreach (var set in table.SetUps.With[key])
        {
            unpaid[Row(person, set) + day] -= minutes;
        }
    }
}

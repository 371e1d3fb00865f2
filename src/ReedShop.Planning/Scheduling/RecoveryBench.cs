namespace ReedShop.Planning.Scheduling;

/// <summary>What the days and nights still offer while the recovery rule places sittings, one charge at a time.</summary>
internal sealed class RecoveryBench(RecoveryWork work)
{
    private readonly int[] room = new int[work.Days];
    private readonly int[] rack = new int[work.LastNight];
    private readonly int[] sharing = new int[work.Days * work.KeyMinutes.Length];

    public void Clear(ReadOnlySpan<int> openMinutes)
    {
        openMinutes.CopyTo(room);
        Array.Fill(rack, work.RackBlanks);
        Array.Clear(sharing);
    }

    /// <summary>The first day from one on with the minutes for a sitting and its set-ups; the horizon where none has.</summary>
    public int FirstDay(int sitting, int from)
    {
        var day = from;
        while (day < work.Days && room[day] < work.Minutes[sitting] + Unpaid(sitting, day))
        {
            day++;
        }

        return day;
    }

    /// <summary>The last night of a run on which so many blanks find no room; null when all have it.</summary>
    public int? LastBlocked(int blanks, int from, int until)
    {
        for (var night = until - 1; night >= from; night--)
        {
            if (rack[night] < blanks)
            {
                return night;
            }
        }

        return null;
    }

    /// <summary>Charges a sitting, or takes its charge back where the sign is -1.</summary>
    public void ChargeDay(int sitting, int day, int sign)
    {
        room[day] -= sign * work.Minutes[sitting];
        foreach (var key in work.KeysOf[sitting])
        {
            ref var sharers = ref sharing[(day * work.KeyMinutes.Length) + key];
            var alone = (sign > 0 ? sharers : sharers - 1) == 0;
            sharers += sign;
            room[day] -= alone ? sign * work.KeyMinutes[key] : 0;
        }
    }

    public void ChargeNights(int blanks, int from, int until, int sign)
    {
        for (var night = from; night < until; night++)
        {
            rack[night] -= sign * blanks;
        }
    }

    private int Unpaid(int sitting, int day)
    {
        var minutes = 0;
        foreach (var key in work.KeysOf[sitting])
        {
            minutes += sharing[(day * work.KeyMinutes.Length) + key] == 0 ? work.KeyMinutes[key] : 0;
        }

        return minutes;
    }
}

namespace ReedShop.Planning.Bench;

/// <summary>When somebody may first be at the bench on a day, and when the last one leaves it.</summary>
public static class Spans
{
    /// <summary>Of a run of days.</summary>
    public static DaySpan[] Of(IReadOnlyList<BenchCalendar> people, DateOnly first, int days) =>
        [.. Enumerable.Range(0, days).Select(offset => On(people, first.AddDays(offset)))];

    /// <summary>
    /// The day on which blanks laid out when a day closed have had their nights, and their hours if somebody may be at
    /// the bench on it.
    /// </summary>
    public static DateOnly DriedOn(IReadOnlyList<BenchCalendar> people, DateOnly laidOut, int nights, int leastHours)
    {
        var opens = On(people, laidOut.AddDays(nights));
        var isShort = nights > 0 && opens.ComesTooSoon(On(people, laidOut), nights, leastHours);
        return laidOut.AddDays(isShort ? nights + 1 : nights);
    }

    private static DaySpan On(IReadOnlyList<BenchCalendar> people, DateOnly day)
    {
        var hours = people.SelectMany(person => person.HoursOn(day)).Where(open => open.Minutes > 0).ToArray();
        return hours.Length == 0
            ? default
            : new DaySpan(MinuteOf(hours.Min(open => open.From)), MinuteOf(hours.Max(open => open.To)));
    }

    private static int MinuteOf(TimeOnly time) => (int)time.ToTimeSpan().TotalMinutes;
}

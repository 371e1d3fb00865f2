namespace ReedShop.Planning.Bench;

/// <summary>One stretch of local clock time during which the bench is open.</summary>
public readonly record struct OpenHours(TimeOnly From, TimeOnly To)
{
    public int Minutes => To > From ? (int)(To - From).TotalMinutes : 0;
}

/// <summary>
/// The hours the bench is open on each local date: a weekly pattern, and dates that differ from it
/// (a concert, a holiday, an extra morning). Dates with no hours are closed; nights pass on them all the same.
/// </summary>
public sealed class BenchCalendar(
    IReadOnlyDictionary<DayOfWeek, IReadOnlyList<OpenHours>> week,
    IReadOnlyDictionary<DateOnly, IReadOnlyList<OpenHours>> differing
)
{
    private const int UsualSpanDays = 28;

    public IReadOnlyList<OpenHours> HoursOn(DateOnly day) =>
        differing.TryGetValue(day, out var hours) ? hours : week.GetValueOrDefault(day.DayOfWeek, []);

    public int OpenMinutes(DateOnly day) => HoursOn(day).Sum(hours => hours.Minutes);

    /// <summary>Open minutes of a run of days, the shape the planner works on.</summary>
    public int[] OpenMinutes(DateOnly first, int days) =>
        [.. Enumerable.Range(0, days).Select(offset => OpenMinutes(first.AddDays(offset)))];

    /// <summary>When the bench opens first and closes last on each of a run of days; no time at all where it is closed.</summary>
    public DaySpan[] Spans(DateOnly first, int days) =>
        [.. Enumerable.Range(0, days).Select(offset => SpanOn(first.AddDays(offset)))];

    /// <summary>
    /// The day on which blanks laid out when a day closed have had their nights, and their hours if the bench opens on it.
    /// </summary>
    public DateOnly DriedOn(DateOnly laidOut, int nights, int leastHours)
    {
        var (closed, opens) = (SpanOn(laidOut), SpanOn(laidOut.AddDays(nights)));
        var isShort = nights > 0 && opens.IsOpen && closed.IsOpen && opens.HoursSince(closed, nights) < leastHours;
        return laidOut.AddDays(isShort ? nights + 1 : nights);
    }

    private DaySpan SpanOn(DateOnly day)
    {
        var hours = HoursOn(day).Where(open => open.Minutes > 0).ToArray();
        return hours.Length == 0
            ? default
            : new DaySpan(MinuteOf(hours.Min(open => open.From)), MinuteOf(hours.Max(open => open.To)));
    }

    private static int MinuteOf(TimeOnly time) => (int)time.ToTimeSpan().TotalMinutes;

    /// <summary>
    /// The minutes of a usual open day: the median over four weeks. Work longer than this is cut, because waiting for
    /// the one long day of the week at every sitting would take months.
    /// </summary>
    public int UsualMinutes(DateOnly first)
    {
        var open = OpenMinutes(first, UsualSpanDays).Where(minutes => minutes > 0).Order().ToArray();
        return open.Length == 0 ? 0 : open[(open.Length - 1) / 2];
    }
}

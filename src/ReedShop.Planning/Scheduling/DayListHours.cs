using ReedShop.Planning.Bench;

namespace ReedShop.Planning.Scheduling;

/// <summary>The open stretches of a day in whole minutes from midnight, in order and apart from one another.</summary>
internal sealed class DayListHours
{
    /// <summary>Said of work that the day has no room for.</summary>
    public const int Never = int.MaxValue;

    private readonly List<(int From, int To)> stretches = [];

    public DayListHours(IEnumerable<OpenHours> hours)
    {
        foreach (var open in hours.Where(open => open.Minutes > 0).OrderBy(open => open.From))
        {
            var (from, to) = (MinuteFrom(open.From), MinuteOf(open.To));
            if (stretches.Count > 0 && from <= stretches[^1].To)
            {
                stretches[^1] = (stretches[^1].From, Math.Max(to, stretches[^1].To));
            }
            else
            {
                stretches.Add((from, to));
            }
        }
    }

    /// <summary>The minute the bench closes for the night; 0 on a closed day.</summary>
    public int Closing => stretches.Count == 0 ? 0 : stretches[^1].To;

    /// <summary>The first minute that has not begun before <paramref name="time"/>.</summary>
    public static int MinuteFrom(TimeOnly time) => (int)Math.Ceiling(time.ToTimeSpan().TotalMinutes);

    public static TimeOnly TimeOf(int minute) => TimeOnly.MinValue.AddMinutes(minute);

    /// <summary>Where so many minutes can first be worked without a break, and when that stretch closes.</summary>
    public (int Start, int Closes) FirstRoom(int from, int minutes)
    {
        foreach (var (opens, closes) in stretches)
        {
            var start = Math.Max(from, opens);
            if (start + minutes <= closes)
            {
                return (start, closes);
            }
        }

        return (Never, Never);
    }

    /// <summary>The minute at which so many open minutes have passed since <paramref name="from"/>.</summary>
    public int After(int from, int minutes)
    {
        foreach (var (opens, closes) in stretches)
        {
            var start = Math.Max(from, opens);
            if (start + minutes <= closes)
            {
                return start + minutes;
            }

            minutes -= Math.Max(0, closes - start);
        }

        return Never;
    }

    private static int MinuteOf(TimeOnly time) => (int)time.ToTimeSpan().TotalMinutes;
}

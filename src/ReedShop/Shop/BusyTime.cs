using ReedShop.Planning.Bench;

namespace ReedShop.Shop;

/// <summary>A time at which the maker is elsewhere, on the shop's clock.</summary>
/// <param name="Key">Names it among those of its file: the same file read again gives the same keys.</param>
/// <param name="Series">What the keys of all occurrences of one recurring event begin with.</param>
/// <param name="From">Local time; midnight of the first day where it lasts whole days.</param>
/// <param name="To">The end, no longer part of it; midnight after the last day where it lasts whole days.</param>
public sealed record BusyTime(
    string Key,
    string Series,
    string Uid,
    string Summary,
    DateTime From,
    DateTime To,
    bool IsAllDay
)
{
    /// <summary>The days it touches.</summary>
    public IEnumerable<DateOnly> Days
    {
        get
        {
            for (var day = DateOnly.FromDateTime(From); day.ToDateTime(TimeOnly.MinValue) < To; day = day.AddDays(1))
            {
                yield return day;
            }
        }
    }

    /// <summary>What is left of a day's hours.</summary>
    public IReadOnlyList<OpenHours> LeftOf(DateOnly day, IReadOnlyList<OpenHours> hours)
    {
        var (from, to) = Minutes(day);
        return
        [
            .. hours
                .SelectMany(open => new[] { Between(open, 0, from), Between(open, to, MinutesOfDay) })
                .OfType<OpenHours>(),
        ];
    }

    /// <summary>What it takes of a day's hours.</summary>
    public IReadOnlyList<OpenHours> TakenOf(DateOnly day, IReadOnlyList<OpenHours> hours)
    {
        var (from, to) = Minutes(day);
        return [.. hours.Select(open => Between(open, from, to)).OfType<OpenHours>()];
    }

    private const int MinutesOfDay = 24 * 60;

    /// <summary>From and to on that day in minutes since midnight: begun minutes are busy ones.</summary>
    private (int From, int To) Minutes(DateOnly day)
    {
        var midnight = day.ToDateTime(TimeOnly.MinValue);
        return (
            (int)Math.Clamp(Math.Floor((From - midnight).TotalMinutes), 0, MinutesOfDay),
            (int)Math.Clamp(Math.Ceiling((To - midnight).TotalMinutes), 0, MinutesOfDay)
        );
    }

    private static OpenHours? Between(OpenHours open, int from, int to)
    {
        var first = Math.Max(from, MinuteOf(open.From));
        var last = Math.Min(to, MinuteOf(open.To));
        return first < last ? new OpenHours(Clock(first), Clock(last)) : null;
    }

    private static int MinuteOf(TimeOnly time) => (time.Hour * 60) + time.Minute;

    private static TimeOnly Clock(int minute) => TimeOnly.MinValue.AddMinutes(minute);
}

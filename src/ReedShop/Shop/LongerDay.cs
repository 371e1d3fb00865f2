using ReedShop.Planning.Bench;

namespace ReedShop.Shop;

/// <summary>The hours of a day that is to offer more minutes than it does.</summary>
public static class LongerDay
{
    public const int MostMinutes = 240;

    /// <summary>The plan goes no farther.</summary>
    public const int MostDaysAhead = 299;

    private static readonly TimeOnly UsualEvening = new(19, 0);
    private static readonly TimeOnly Bedtime = new(23, 30);

    /// <summary>
    /// Later in the evening as far as bedtime allows, and the rest earlier; a closed day opens when most days do. Null
    /// where there is no room.
    /// </summary>
    public static IReadOnlyList<OpenHours>? Of(BenchCalendar bench, DateOnly date, int minutes)
    {
        var hours = bench.HoursOn(date);
        if (hours.Count == 0)
        {
            return [From(UsualStart(bench, date), minutes)];
        }

        var last = hours[^1];
        var later = Math.Clamp((int)(Bedtime - last.To).TotalMinutes, 0, minutes);
        var stretched = last.To > Bedtime ? last : last with { To = last.To.AddMinutes(later) };
        var earlier = minutes - (last.To > Bedtime ? 0 : later);
        IReadOnlyList<OpenHours> all = [.. hours.Take(hours.Count - 1), stretched];
        return earlier == 0 ? all
            : all[0].From.ToTimeSpan().TotalMinutes >= earlier
                ? [all[0] with { From = all[0].From.AddMinutes(-earlier) }, .. all.Skip(1)]
            : null;
    }

    private static OpenHours From(TimeOnly start, int minutes)
    {
        var latest = TimeOnly.MaxValue.AddMinutes(-minutes);
        var from = start > latest ? latest : start;
        return new OpenHours(from, from.AddMinutes(minutes));
    }

    private static TimeOnly UsualStart(BenchCalendar bench, DateOnly date)
    {
        const int fourWeeks = 28;
        var starts = Enumerable
            .Range(0, fourWeeks)
            .SelectMany(day => bench.HoursOn(date.AddDays(day)).Take(1))
            .Select(hours => hours.From)
            .Order()
            .ToArray();
        return starts.Length == 0 ? UsualEvening : starts[starts.Length / 2];
    }
}

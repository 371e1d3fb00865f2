using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using NodaTime.TimeZones;

namespace ReedShop.Shop;

/// <summary>
/// Zones that a calendar file names. The tz database knows most; a name of the file's own is read from the file's
/// VTIMEZONE (RFC 5545, 3.6.5). The calendar library asks one function for all files, so the file being read is kept
/// with the flow of the call.
/// </summary>
internal static class FileZones
{
    private static readonly AsyncLocal<IReadOnlyDictionary<string, Lazy<DateTimeZone>>?> Described = new();

    static FileZones() => TimeZoneResolvers.TimeZoneResolver = Zone;

    /// <summary>Reads with the zones that these calendars describe.</summary>
    public static T With<T>(IEnumerable<Ical.Net.Calendar> calendars, DateOnly until, Func<T> read)
    {
        var before = Described.Value;
        Described.Value = calendars
            .SelectMany(calendar => calendar.TimeZones)
            .Where(zone => zone.TzId is { Length: > 0 } && zone.TimeZoneInfos.Any(IsWhole))
            .DistinctBy(zone => zone.TzId, StringComparer.Ordinal)
            .ToDictionary(
                zone => zone.TzId!,
                zone => new Lazy<DateTimeZone>(() => new FileZone(zone, until)),
                StringComparer.Ordinal
            );
        try
        {
            return read();
        }
        finally
        {
            Described.Value = before;
        }
    }

    internal static bool IsWhole(VTimeZoneInfo rule) =>
        rule is { DtStart: not null, OffsetFrom: not null, OffsetTo: not null };

    private static DateTimeZone Zone(string name)
    {
        try
        {
            return TimeZoneResolvers.Default(name);
        }
        catch (ArgumentException unknown)
        {
            return Described.Value?.GetValueOrDefault(name)?.Value
                ?? throw new ArgumentException(
                    $"its time zone “{name}” is neither in the tz database nor described in the file",
                    unknown
                );
        }
    }
}

/// <summary>A zone as a file describes it: at each onset the offset becomes another.</summary>
internal sealed class FileZone : DateTimeZone
{
    /// <summary>More changes of the clock than any zone has seen.</summary>
    private const int MostOnsets = 1000;

    private readonly ZoneInterval[] intervals;

    /// <param name="until">Onsets after this day are not looked for.</param>
    public FileZone(VTimeZone zone, DateOnly until)
        : base(zone.TzId!, isFixed: false, Offset.MinValue, Offset.MaxValue)
    {
        var onsets = zone
            .TimeZoneInfos.Where(FileZones.IsWhole)
            .SelectMany(rule => Onsets(rule, until).Take(MostOnsets + 1))
            .DistinctBy(onset => onset.At)
            .OrderBy(onset => onset.At)
            .ToArray();
        if (onsets.Length is 0 or > MostOnsets)
        {
            throw new ArgumentException($"its time zone “{zone.TzId}” is not described so that it could be used");
        }

        intervals =
        [
            Interval(null, onsets[0].At, onsets[0].Before),
            .. onsets.Select(
                (onset, place) => Interval(onset.At, onsets.ElementAtOrDefault(place + 1)?.At, onset.After)
            ),
        ];
    }

    public override ZoneInterval GetZoneInterval(Instant instant) =>
        Array.Find(intervals, interval => interval.Contains(instant))!;

    /// <summary>An onset is told in the local time that was kept before it.</summary>
    private static IEnumerable<Onset> Onsets(VTimeZoneInfo rule, DateOnly until)
    {
        var event_ = new CalendarEvent { DtStart = rule.DtStart, RecurrenceRule = rule.RecurrenceRule };
        event_.RecurrenceDates.AddRange(rule.RecurrenceDates.GetAllPeriods());
        return event_
            .GetOccurrences(null, BusyFile.Evaluation)
            .Select(onset => onset.Period.StartTime.Value)
            .TakeWhile(local => DateOnly.FromDateTime(local) <= until.AddYears(1))
            .Select(local => new Onset(
                Instant.FromDateTimeUtc(DateTime.SpecifyKind(local - rule.OffsetFrom!.Offset, DateTimeKind.Utc)),
                Offset.FromTimeSpan(rule.OffsetFrom.Offset),
                Offset.FromTimeSpan(rule.OffsetTo!.Offset)
            ));
    }

    private static ZoneInterval Interval(Instant? from, Instant? to, Offset offset) =>
        new("", from, to, offset, Offset.Zero);

    private sealed record Onset(Instant At, Offset Before, Offset After);
}

using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using NodaTime.Extensions;
using NodaTime.TimeZones;
using ReedShop.Platform;

namespace ReedShop.Calendar;

/// <summary>
/// The shop's zone for as long as the entries need it (RFC 5545, 3.6.5): one observance for each stretch of the tz
/// database. Stretches written out are right in any zone, whatever rule they come from; rules would have to be guessed.
/// </summary>
internal static class FeedZone
{
    /// <summary>The onset of an offset that a zone has had for ever.</summary>
    private static readonly LocalDateTime LongAgo = new(1970, 1, 1, 0, 0);

    public static VTimeZone Of(string zone, DateOnly first, DateOnly last)
    {
        var rules = ShopClock.Zones[zone];
        var from = rules.AtStartOfDay(first.ToLocalDate()).ToInstant();
        var until = rules.AtStartOfDay(last.ToLocalDate().PlusDays(2)).ToInstant();
        var described = new VTimeZone(zone);
        foreach (var stretch in rules.GetZoneIntervals(from, until))
        {
            described.AddChild(Observance(rules, stretch));
        }

        return described;
    }

    private static VTimeZoneInfo Observance(DateTimeZone rules, ZoneInterval stretch)
    {
        var before = stretch.HasStart
            ? rules.GetUtcOffset(stretch.Start - NodaTime.Duration.Epsilon)
            : stretch.WallOffset;
        var onset = stretch.HasStart ? stretch.Start.WithOffset(before).LocalDateTime : LongAgo;
        return new VTimeZoneInfo(stretch.Savings == Offset.Zero ? "STANDARD" : "DAYLIGHT")
        {
            DtStart = new CalDateTime(onset.ToDateTimeUnspecified()),
            OffsetFrom = new UtcOffset(before.ToTimeSpan()),
            OffsetTo = new UtcOffset(stretch.WallOffset.ToTimeSpan()),
            TimeZoneName = stretch.Name,
        };
    }
}

using NodaTime;
using NodaTime.Extensions;

namespace ReedShop.Platform;

/// <summary>
/// The only place that reads the clock. Zone rules come from the tz database bundled with NodaTime, because the
/// system's copy goes stale.
/// </summary>
public sealed class ShopClock(TimeProvider time)
{
    public Instant Now => time.GetUtcNow().ToInstant();

    public Task Pause(TimeSpan span, CancellationToken cancel) => Task.Delay(span, time, cancel);

    public DateTime NowUtc => time.GetUtcNow().UtcDateTime;

    public static IDateTimeZoneProvider Zones => DateTimeZoneProviders.Tzdb;

    /// <summary>The shop's local date.</summary>
    public DateOnly Today(string zone) => LocalNow(zone).Date.ToDateOnly();

    public LocalDateTime LocalNow(string zone) => Now.InZone(Zones[zone]).LocalDateTime;

    public static LocalDateTime Local(DateTime utc, string zone) =>
        Instant.FromDateTimeUtc(DateTime.SpecifyKind(utc, DateTimeKind.Utc)).InZone(Zones[zone]).LocalDateTime;

    /// <summary>
    /// The instant of a local wall time. A time that is skipped when clocks go forward becomes the first instant
    /// after the gap; one that occurs twice becomes the earlier.
    /// </summary>
    public static DateTime InstantOf(DateOnly day, TimeOnly at, string zone) =>
        Zones[zone]
            .ResolveLocal(
                day.ToLocalDate().At(at.ToLocalTime()),
                NodaTime.TimeZones.Resolvers.CreateMappingResolver(
                    NodaTime.TimeZones.Resolvers.ReturnEarlier,
                    NodaTime.TimeZones.Resolvers.ReturnStartOfIntervalAfter
                )
            )
            .ToDateTimeUtc();
}

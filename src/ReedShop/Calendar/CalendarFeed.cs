using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Calendar;

/// <summary>
/// Writes entries as a calendar (RFC 5545). The same entries give the same bytes: what would change with every request,
/// such as the time of writing, is not in it. The feed names no METHOD, so DTSTAMP is the last change (3.8.7.2).
/// </summary>
/// <param name="pageOf">The address of the page of a day.</param>
public sealed class CalendarFeed(string shopName, string zone, string realm, Func<DateOnly, string> pageOf)
{
    private const string Program = "-//ReedShop//The plan of the bench//EN";

    public byte[] Write(IReadOnlyList<CalendarEntry> entries)
    {
        var calendar = new Ical.Net.Calendar { ProductId = Program };
        calendar.AddProperty("NAME", shopName);
        calendar.AddProperty("X-WR-CALNAME", shopName);
        calendar.AddProperty("REFRESH-INTERVAL;VALUE=DURATION", "PT1H");
        if (entries.Where(entry => entry.Content.From is not null).Select(e => e.LastDay).ToArray() is [_, ..] timed)
        {
            calendar.AddChild(FeedZone.Of(zone, timed.Min(), timed.Max()));
        }

        calendar.Events.AddRange(entries.Select(Event));
        return Encoding.UTF8.GetBytes(new CalendarSerializer().SerializeToString(calendar)!);
    }

    private CalendarEvent Event(CalendarEntry entry)
    {
        var content = entry.Content;
        var event_ = new CalendarEvent
        {
            Uid = $"{entry.Name}@{realm}",
            DtStamp = new CalDateTime(entry.ChangedUtc),
            Created = new CalDateTime(entry.CreatedUtc),
            LastModified = new CalDateTime(entry.ChangedUtc),
            Sequence = entry.Sequence,
            Status = entry.Stage == EntryStage.Cancelled ? EventStatus.Cancelled : EventStatus.Confirmed,
            Transparency = content.From is null ? TransparencyType.Transparent : TransparencyType.Opaque,
            Summary = content.Title,
            Description = content.Text,
            Url = Uri.TryCreate(pageOf(content.FirstDay), UriKind.Absolute, out var page) ? page : null,
        };
        Place(event_, content);
        return event_;
    }

    private void Place(CalendarEvent event_, EntryContent content)
    {
        if (content is not { From: { } from, To: { } to })
        {
            event_.DtStart = new CalDateTime(content.FirstDay);
            event_.DtEnd = new CalDateTime(content.LastDay.AddDays(1));
            return;
        }

        var (start, end) = (Local(content.FirstDay, from), Local(content.LastDay, to));
        event_.DtStart = new CalDateTime(start, zone);
        // Both times may fall into the gap of one clock change; an end must be later than its start (3.8.2.2).
        event_.DtEnd = end > start ? new CalDateTime(end, zone) : null;
    }

    /// <summary>A time that the clocks skip is told as the first that there is.</summary>
    private DateTime Local(DateOnly day, TimeOnly at) =>
        ShopClock.Local(ShopClock.InstantOf(day, at, zone), zone).ToDateTimeUnspecified();
}

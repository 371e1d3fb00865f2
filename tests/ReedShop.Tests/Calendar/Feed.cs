using System.Globalization;
using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;

namespace ReedShop.Tests.Calendar;

/// <summary>A feed as a calendar reads it: unfolded lines, and what another reader of RFC 5545 makes of them.</summary>
internal sealed class Feed
{
    public Feed(byte[] bytes)
    {
        Bytes = bytes;
        Text = new UTF8Encoding(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true).GetString(bytes);
        Calendar = Ical.Net.Calendar.Load(Text)!;
    }

    public byte[] Bytes { get; }

    public string Text { get; }

    public Ical.Net.Calendar Calendar { get; }

    /// <summary>Content lines with their folds taken out (3.1).</summary>
    public string[] Lines =>
        Text.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

    public IEnumerable<CalendarEvent> Events => Calendar.Events;

    public CalendarEvent Named(string start) =>
        Events.Single(e => e.Uid!.StartsWith(start + "@", StringComparison.Ordinal));

    public IEnumerable<CalendarEvent> Titled(string part) =>
        Events.Where(e => e.Summary!.Contains(part, StringComparison.OrdinalIgnoreCase)).OrderBy(e => e.DtStart!.Value);

    /// <summary>Of every event the things that calendars tell a change by.</summary>
    public Dictionary<string, (int Sequence, string Status, DateTime Start)> Told() =>
        Events.ToDictionary(e => e.Uid!, e => (e.Sequence, e.Status!, e.DtStart!.Value));

    /// <summary>
    /// The instants of events by nothing but what the file itself says of its zone (3.6.5): the offset of the last onset
    /// before the local time, onsets being told in the offset before them.
    /// </summary>
    public string UtcByTheFile(DateTime local)
    {
        var onsets = Calendar.TimeZones.Single().TimeZoneInfos.OrderBy(rule => rule.DtStart!.Value).ToArray();
        var last = onsets.LastOrDefault(rule => rule.DtStart!.Value <= local) ?? onsets[0];
        return Written(local - last.OffsetTo!.Offset);
    }

    public static string Written(DateTime time) => time.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
}

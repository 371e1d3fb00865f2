using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Evaluation;
using ReedShop.Platform;

namespace ReedShop.Shop;

/// <summary>One reading of a file: what is busy from today on, for a year, told by the shop's clock.</summary>
internal sealed class BusyReading(string zone, DateOnly today)
{
    private static readonly TimeSpan Longest = TimeSpan.FromDays(BusyFile.DaysAhead + 1);

    private readonly DateTime start = today.ToDateTime(TimeOnly.MinValue);
    private readonly DateTime end = today.AddDays(BusyFile.DaysAhead + 1).ToDateTime(TimeOnly.MinValue);
    private readonly List<BusyTime> busy = [];
    private readonly List<UnreadEvent> unread = [];
    private int recurrences;
    private int cancelled;

    public BusyFile Read(CalendarCollection calendars)
    {
        var series = calendars.SelectMany(c => c.Events).GroupBy(e => e.Uid, StringComparer.Ordinal).ToArray();
        foreach (var (place, sameUid) in series.Index())
        {
            Read(place + 1, [.. sameUid]);
        }

        return new BusyFile(
            [.. busy.OrderBy(time => time.From).ThenBy(time => time.Key, StringComparer.Ordinal)],
            calendars.SelectMany(c => c.Events).Count(IsFree),
            cancelled,
            unread
        );
    }

    /// <summary>Numbered by place, because a file may leave the UIDs out.</summary>
    private void Read(int place, IReadOnlyList<CalendarEvent> sameUid)
    {
        unread.AddRange(sameUid.Where(IsTorn).Select(e => new UnreadEvent(Name(e), "its start or end cannot be read")));
        try
        {
            var most = Math.Min(BusyFile.MostRecurrences, BusyFile.MostRecurrencesOfAll - recurrences);
            foreach (var (count, one) in Recurrences.Of([.. sameUid.Where(e => !IsTorn(e))], IsNear).Index())
            {
                recurrences++;
                if (count >= most)
                {
                    unread.Add(new UnreadEvent(Name(one.Event), "it recurs too often"));
                    return;
                }

                Take(place, one);
            }
        }
        catch (Exception fault) when (BusyFile.IsOfFile(fault))
        {
            unread.Add(new UnreadEvent(Name(sameUid[0]), Why(fault)));
        }
    }

    private bool IsNear(CalDateTime time) => Local(time) < end;

    private void Take(int place, Happening one)
    {
        var (from, to) = (Local(one.From), Local(one.To));
        if (to <= start || from >= end || to <= from || IsFree(one.Event))
        {
            return;
        }

        if (to - from > Longest)
        {
            unread.Add(new UnreadEvent(Name(one.Event), "it lasts longer than a year"));
            return;
        }

        if (IsCancelled(one.Event))
        {
            cancelled++;
            return;
        }

        var series = FormattableString.Invariant($"{place}/");
        busy.Add(
            new BusyTime(
                series + one.Instance,
                series,
                one.Event.Uid ?? "",
                Name(one.Event),
                from,
                to,
                !one.From.HasTime
            )
        );
    }

    /// <summary>A time without a zone is told by the shop's own clock.</summary>
    private DateTime Local(CalDateTime time) =>
        time.IsFloating ? time.Value : ShopClock.Local(time.AsUtc, zone).ToDateTimeUnspecified();

    private static bool IsFree(CalendarEvent e) =>
        string.Equals(e.Transparency, "TRANSPARENT", StringComparison.OrdinalIgnoreCase);

    /// <summary>The library leaves out what it cannot read: without its end an event would silently take nothing.</summary>
    private static bool IsTorn(CalendarEvent e) =>
        e.DtStart is null
        || (e.DtEnd is null && e.Properties.ContainsKey("DTEND"))
        || (e.Duration is null && e.Properties.ContainsKey("DURATION"));

    private static bool IsCancelled(CalendarEvent e) =>
        string.Equals(e.Status, "CANCELLED", StringComparison.OrdinalIgnoreCase)
        || string.Equals(e.Calendar?.Method, "CANCEL", StringComparison.OrdinalIgnoreCase);

    private static string Name(CalendarEvent e) => DayReason.Line(e.Summary) ?? "busy";

    internal static string Why(Exception fault) =>
        fault is EvaluationLimitExceededException
            ? "its rule names no day"
            : $"{fault.Message.Split(" (Parameter", 2)[0].TrimEnd('.')}";
}

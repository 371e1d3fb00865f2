using System.Runtime.Serialization;
using System.Text;
using Ical.Net;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Evaluation;
using NodaTime.Extensions;
using ReedShop.Platform;

namespace ReedShop.Shop;

/// <summary>An event that could not be read, and why; the others of its file can.</summary>
public sealed record UnreadEvent(string Summary, string Reason);

/// <summary>The busy times of a calendar file (RFC 5545) in the year ahead, in their order.</summary>
/// <param name="Free">Events marked as leaving the maker free (transparent).</param>
/// <param name="Cancelled">Times that were called off.</param>
public sealed record BusyFile(IReadOnlyList<BusyTime> Busy, int Free, int Cancelled, IReadOnlyList<UnreadEvent> Unread)
{
    public const int MostBytes = 1024 * 1024;
    public const int MostEvents = 2000;

    /// <summary>Looked at of one event, those long past included: daily for fifty years.</summary>
    public const int MostRecurrences = 20_000;

    /// <summary>Looked at in one file.</summary>
    public const int MostRecurrencesOfAll = 100_000;

    public const int DaysAhead = 365;

    public static string Allowed { get; } =
        $"a calendar file (.ics, RFC 5545, text/calendar in UTF-8) of up to {MostBytes / 1024 / 1024} MB and "
        + $"{MostEvents} events, from BEGIN:VCALENDAR to END:VCALENDAR";

    /// <summary>A rule that names no day, such as 30 February, is given up after so many tries.</summary>
    internal static EvaluationOptions Evaluation { get; } = new() { MaxUnmatchedIncrementsLimit = 1000 };

    /// <summary>No more than a file may hold is taken in, whatever is sent.</summary>
    public static async Task<Result<string>> Text(Stream file, string field, CancellationToken cancel)
    {
        var bytes = new byte[MostBytes + 1];
        var length = await file.ReadAtLeastAsync(bytes, bytes.Length, throwOnEndOfStream: false, cancel);
        return length > MostBytes
            ? new Refusal(RefusalKind.TooLarge, "The file is too large.", field, Allowed)
            : Encoding.UTF8.GetString(bytes.AsSpan(0, length)).TrimStart('\uFEFF');
    }

    /// <param name="field">The name a refusal gives.</param>
    public static Result<BusyFile> Read(string text, string zone, DateOnly today, string field)
    {
        return Load(text, field)
            .Then<BusyFile>(calendars =>
                FileZones.With(calendars, today.AddDays(DaysAhead), () => new Reading(zone, today).Read(calendars))
            );
    }

    private static Result<CalendarCollection> Load(string text, string field)
    {
        try
        {
            var calendars = CalendarCollection.Load(text);
            var events = calendars.Sum(calendar => calendar.Events.Count);
            return calendars.Count == 0 ? Refusal.Invalid(field, "The file holds no calendar.", Allowed)
                : events == 0 ? Refusal.Invalid(field, "The calendar holds no event.", Allowed)
                : events > MostEvents ? Refusal.Invalid(field, $"The calendar holds {events} events.", Allowed)
                : calendars;
        }
        catch (Exception fault) when (IsOfFile(fault))
        {
            return Refusal.Invalid(field, $"The file cannot be read: {fault.Message.TrimEnd('.')}.", Allowed);
        }
    }

    /// <summary>What the library throws at a file it cannot make sense of.</summary>
    private static bool IsOfFile(Exception fault) =>
        fault
            is SerializationException
                or EvaluationException
                or ArgumentException
                or FormatException
                or InvalidOperationException
                or OverflowException;

    private sealed class Reading(string zone, DateOnly today)
    {
        private static readonly TimeSpan Longest = TimeSpan.FromDays(DaysAhead + 1);

        private readonly DateTime start = today.ToDateTime(TimeOnly.MinValue);
        private readonly DateTime end = today.AddDays(DaysAhead + 1).ToDateTime(TimeOnly.MinValue);
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
            unread.AddRange(
                sameUid.Where(IsTorn).Select(e => new UnreadEvent(Name(e), "its start or end cannot be read"))
            );
            try
            {
                var most = Math.Min(MostRecurrences, MostRecurrencesOfAll - recurrences);
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
            catch (Exception fault) when (IsOfFile(fault))
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

        private static string Why(Exception fault) =>
            fault is EvaluationLimitExceededException
                ? "its rule names no day"
                : $"{fault.Message.Split(" (Parameter", 2)[0].TrimEnd('.')}";
    }
}

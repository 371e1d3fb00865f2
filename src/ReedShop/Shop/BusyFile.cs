using System.Runtime.Serialization;
using System.Text;
using Ical.Net;
using Ical.Net.Evaluation;
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
        var whole = Load(text, field);
        if (!whole.IsRefused)
        {
            return whole.Then<BusyFile>(calendars => Read(calendars, zone, today));
        }

        var (sound, broken) = EventsOfFile.Sound(text);
        var rest = broken.Count == 0 ? whole : Load(sound, field);
        return rest.IsRefused
            ? whole.Refusal!
            : rest.Then<BusyFile>(calendars => Read(calendars, zone, today).Also(broken));
    }

    private static BusyFile Read(CalendarCollection calendars, string zone, DateOnly today) =>
        FileZones.With(calendars, today.AddDays(DaysAhead), () => new BusyReading(zone, today).Read(calendars));

    /// <summary>With events that could not even be taken out of the file.</summary>
    private BusyFile Also(IReadOnlyList<UnreadEvent> broken) => this with { Unread = [.. Unread, .. broken] };

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
    internal static bool IsOfFile(Exception fault) =>
        fault
            is SerializationException
                or EvaluationException
                or ArgumentException
                or FormatException
                or InvalidOperationException
                or OverflowException;
}

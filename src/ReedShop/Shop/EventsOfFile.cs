using Ical.Net;

namespace ReedShop.Shop;

/// <summary>Takes a calendar file apart where it cannot be read as a whole: one broken event must not cost the others.</summary>
internal static class EventsOfFile
{
    private const string Begin = "BEGIN:VEVENT";
    private const string End = "END:VEVENT";
    private const string Summary = "SUMMARY";

    /// <summary>The file without the events that cannot be read, and those.</summary>
    public static (string Text, IReadOnlyList<UnreadEvent> Broken) Sound(string text)
    {
        var kept = new List<string>();
        var broken = new List<UnreadEvent>();
        List<string>? one = null;
        foreach (var line in text.ReplaceLineEndings("\n").Split('\n'))
        {
            if (Is(line, Begin))
            {
                one = [];
            }

            (one ?? kept).Add(line);
            if (one is not null && Is(line, End))
            {
                if (Fault(one) is { } reason)
                {
                    broken.Add(new UnreadEvent(Name(one), reason));
                }
                else
                {
                    kept.AddRange(one);
                }

                one = null;
            }
        }

        // An event without an end is no event: the file is torn.
        kept.AddRange(one ?? []);
        return (string.Join("\r\n", kept), broken);
    }

    private static string? Fault(IEnumerable<string> lines)
    {
        try
        {
            CalendarCollection.Load(
                string.Join("\r\n", ["BEGIN:VCALENDAR", "VERSION:2.0", .. lines, "END:VCALENDAR", ""])
            );
            return null;
        }
        catch (Exception fault) when (BusyFile.IsOfFile(fault))
        {
            return BusyReading.Why(fault);
        }
    }

    private static string Name(IEnumerable<string> lines)
    {
        var line = lines.FirstOrDefault(line => line.StartsWith(Summary, StringComparison.OrdinalIgnoreCase)) ?? "";
        return DayReason.Line(line.IndexOf(':', StringComparison.Ordinal) is var at and >= 0 ? line[(at + 1)..] : null)
            ?? "busy";
    }

    private static bool Is(string line, string marker) =>
        line.TrimEnd().Equals(marker, StringComparison.OrdinalIgnoreCase);
}

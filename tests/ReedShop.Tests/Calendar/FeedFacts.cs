using System.Globalization;
using System.Text;
using ReedShop.Calendar;

namespace ReedShop.Tests.Calendar;

/// <summary>How entries are written. Numbers in brackets are sections of RFC 5545.</summary>
public sealed class FeedFacts
{
    private static readonly DateTime Changed = new(2027, 3, 1, 9, 0, 0, DateTimeKind.Utc);

    // (3.1) "Lines of text SHOULD NOT be longer than 75 octets, excluding the line break", lines end in CRLF; a fold may
    // stand between any two characters, but octets of one character belong together.
    [Fact]
    public void Lines_are_folded_at_75_octets_and_never_within_a_character()
    {
        var text = string.Concat(Enumerable.Repeat("três cadernos de lixa 3½, ", 12));

        var feed = Write("Europe/Lisbon", Evening(new DateOnly(2027, 3, 1), "café ½ 漢字", text));

        var lines = feed.Text.Split("\r\n");
        Assert.All(lines, line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.Contains(lines, line => line.StartsWith(' '));
        Assert.DoesNotContain('\n', feed.Text.Replace("\r\n", "", StringComparison.Ordinal));
        Assert.Equal(text, feed.Events.Single().Description);
    }

    // (3.3.11) BACKSLASH, SEMICOLON and COMMA are escaped by a backslash, a line break is written \n, a COLON as it is.
    [Fact]
    public void Text_is_escaped()
    {
        var feed = Write("Europe/Lisbon", Evening(new DateOnly(2027, 3, 1), @"a; b, c\d: e", "one\ntwo"));

        Assert.Contains(@"SUMMARY:a\; b\, c\\d: e", feed.Lines);
        Assert.Contains(@"DESCRIPTION:one\ntwo", feed.Lines);
        Assert.Equal(@"a; b, c\d: e", feed.Events.Single().Summary);
        Assert.Equal("one\ntwo", feed.Events.Single().Description);
    }

    // (3.6) PRODID and VERSION are REQUIRED and occur once; (3.6.1) UID and DTSTAMP are REQUIRED; (3.8.7.2) without a
    // METHOD, DTSTAMP is when the information was last revised; (3.8.7.3) LAST-MODIFIED is in UTC.
    [Fact]
    public void What_a_calendar_must_have_is_there_once()
    {
        var feed = Write("Europe/Lisbon", Evening(new DateOnly(2027, 3, 1)));

        Assert.Equal("BEGIN:VCALENDAR", feed.Lines[0]);
        Assert.Equal("END:VCALENDAR", feed.Lines[^1]);
        Assert.Single(feed.Lines, "VERSION:2.0");
        Assert.Single(feed.Lines, line => line.StartsWith("PRODID:", StringComparison.Ordinal));
        Assert.DoesNotContain(feed.Lines, line => line.StartsWith("METHOD", StringComparison.Ordinal));
        Assert.Single(feed.Lines, "DTSTAMP:20270301T090000Z");
        Assert.Single(feed.Lines, "LAST-MODIFIED:20270301T090000Z");
        Assert.Single(feed.Lines, "SEQUENCE:0");
        Assert.Single(feed.Lines, "UID:evening-2027-03-01@realm.invalid");
        Assert.Single(feed.Lines, "STATUS:CONFIRMED");
    }

    // (3.6.1) An event of dates alone has VALUE=DATE, and its DTEND is the day after its last; (3.8.2.7) it leaves the
    // maker free.
    [Fact]
    public void An_entry_without_times_covers_whole_days_to_its_last()
    {
        var nights = new EntryContent(
            EntryKind.Nights,
            new DateOnly(2027, 3, 1),
            new DateOnly(2027, 3, 2),
            null,
            null,
            "On the rack",
            "2 nights"
        );

        var feed = Write("Europe/Lisbon", ("nights", nights));

        Assert.Single(feed.Lines, "DTSTART;VALUE=DATE:20270301");
        Assert.Single(feed.Lines, "DTEND;VALUE=DATE:20270303");
        Assert.Single(feed.Lines, "TRANSP:TRANSPARENT");
        Assert.Empty(feed.Calendar.TimeZones);
    }

    // (3.2.19) A TZID has its VTIMEZONE in the same file. The instants are rules of the tz database, computed by hand:
    // Lisbon goes forward at 01:00 UTC on 28 March 2027 and back on 31 October, New York at 07:00 UTC on 14 March and
    // back at 06:00 UTC on 7 November, Sydney forward at 16:00 UTC on 2 October and back at 16:00 UTC on 3 April, Lord
    // Howe by half an hour at 15:30 UTC on 2 October and back at 15:00 UTC on 3 April.
    [Theory]
    [InlineData("Europe/Lisbon", "2027-03-27", "2027-03-27 19:00", "2027-03-28 18:00")]
    [InlineData("Europe/Lisbon", "2027-10-30", "2027-10-30 18:00", "2027-10-31 19:00")]
    [InlineData("America/New_York", "2027-03-13", "2027-03-14 00:00", "2027-03-14 23:00")]
    [InlineData("America/New_York", "2027-11-06", "2027-11-06 23:00", "2027-11-08 00:00")]
    [InlineData("Australia/Sydney", "2027-10-02", "2027-10-02 09:00", "2027-10-03 08:00")]
    [InlineData("Australia/Sydney", "2027-04-03", "2027-04-03 08:00", "2027-04-04 09:00")]
    [InlineData("Australia/Lord_Howe", "2027-10-02", "2027-10-02 08:30", "2027-10-03 08:00")]
    [InlineData("Australia/Lord_Howe", "2027-04-03", "2027-04-03 08:00", "2027-04-04 08:30")]
    public void Evenings_keep_their_clock_time_across_a_clock_change(
        string zone,
        string before,
        string beforeUtc,
        string afterUtc
    )
    {
        var day = DateOnly.ParseExact(before, "yyyy-MM-dd", CultureInfo.InvariantCulture);
        var feed = Write(zone, Evening(day), Evening(day.AddDays(1)));

        var starts = feed.Events.Select(e => e.DtStart!).OrderBy(start => start.Value).ToArray();
        Assert.All(starts, start => Assert.Equal((19, zone), (start.Value.Hour, start.TzId)));
        Assert.Equal([beforeUtc, afterUtc], starts.Select(start => Feed.Written(start.AsUtc)));
        Assert.Equal([beforeUtc, afterUtc], starts.Select(start => feed.UtcByTheFile(start.Value)));
    }

    // (3.6.5) The onsets of New York in 2026 and 2027, by the rules printed in that section: the second Sunday of March
    // and the first of November at 02:00 local time (value from memory).
    [Fact]
    public void The_zone_is_described_for_all_that_is_told_in_it()
    {
        var feed = Write("America/New_York", Evening(new DateOnly(2026, 3, 7)), Evening(new DateOnly(2027, 11, 7)));

        var onsets = feed.Calendar.TimeZones.Single().TimeZoneInfos.ToArray();
        Assert.Equal(
            ["2025-11-02 02:00", "2026-03-08 02:00", "2026-11-01 02:00", "2027-03-14 02:00", "2027-11-07 02:00"],
            onsets.Select(rule => Feed.Written(rule.DtStart!.Value)).Order()
        );
        Assert.Equal(2, feed.Lines.Count(line => line == "BEGIN:DAYLIGHT"));
        Assert.Equal(3, feed.Lines.Count(line => line == "TZOFFSETTO:-0500"));
        Assert.All(onsets, rule => Assert.Null(rule.DtStart!.TzId));
    }

    [Fact]
    public void A_zone_that_never_changes_has_one_observance()
    {
        var feed = Write("Etc/GMT-3", Evening(new DateOnly(2027, 3, 1)));

        var rule = Assert.Single(feed.Calendar.TimeZones.Single().TimeZoneInfos);
        Assert.Equal(TimeSpan.FromHours(3), rule.OffsetTo!.Offset);
        Assert.Equal("2027-03-01 16:00", feed.UtcByTheFile(feed.Events.Single().DtStart!.Value));
    }

    // (3.8.2.2) DTEND is later than DTSTART, and (3.3.5) a local time that the clocks skip is best not told at all.
    // New York skips 02:00 to 03:00 on 14 March 2027.
    [Fact]
    public void A_time_that_the_clocks_skip_is_told_as_the_first_that_there_is()
    {
        var day = new DateOnly(2027, 3, 14);
        var feed = Write(
            "America/New_York",
            ("across", At(day, new TimeOnly(1, 30), new TimeOnly(2, 30))),
            ("within", At(day, new TimeOnly(2, 10), new TimeOnly(2, 50)))
        );

        Assert.Equal("2027-03-14 03:00", Feed.Written(feed.Named("across").DtEnd!.Value));
        Assert.Equal("2027-03-14 03:00", Feed.Written(feed.Named("within").DtStart!.Value));
        Assert.Null(feed.Named("within").DtEnd);
    }

    // (3.3.5) Of a local time that comes twice the first is meant. Lord Howe repeats 01:30 to 02:00 on 4 April 2027.
    [Fact]
    public void A_time_that_comes_twice_means_the_first()
    {
        var feed = Write(
            "Australia/Lord_Howe",
            ("twice", At(new DateOnly(2027, 4, 4), new TimeOnly(1, 45), new TimeOnly(3, 0)))
        );

        Assert.Equal("2027-04-03 14:45", Feed.Written(feed.Named("twice").DtStart!.AsUtc));
    }

    private static Feed Write(string zone, params IEnumerable<(string Name, EntryContent Content)> entries) =>
        new(
            new CalendarFeed(
                "Harbour reeds",
                zone,
                "realm.invalid",
                day => $"https://example.org/{day:yyyy-MM-dd}"
            ).Write([.. entries.Select(e => CalendarEntry.Of(new PlanEntry(e.Name, "7", e.Content), Changed))])
        );

    private static (string Name, EntryContent Content) Evening(
        DateOnly day,
        string title = "batch 7: soak",
        string text = "10 blanks"
    ) => ($"evening-{day:yyyy-MM-dd}", At(day, new TimeOnly(19, 0), new TimeOnly(20, 0), title, text));

    private static EntryContent At(
        DateOnly day,
        TimeOnly from,
        TimeOnly to,
        string title = "batch 7: soak",
        string text = "10 blanks"
    ) => new(EntryKind.Sitting, day, day, from, to, title, text);
}

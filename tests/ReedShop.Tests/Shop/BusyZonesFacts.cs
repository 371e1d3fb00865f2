using static ReedShop.Tests.Shop.BusyShop;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>Times of a calendar file are told by the shop's clock, whatever zone they are written in. The shop is that of <see cref="BusyShop"/>.</summary>
public sealed class BusyZonesFacts
{
    [Fact]
    public async Task A_weekly_rehearsal_keeps_its_hour_in_Lisbon_when_the_clocks_change_there()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event(
                    "rehearsal",
                    "DTSTART;TZID=Europe/Lisbon:20270316T190000",
                    "DTEND;TZID=Europe/Lisbon:20270316T200000",
                    "RRULE:FREQ=WEEKLY;COUNT=4"
                )
            )
        );

        Assert.Equal(
            ["2027-03-16 19:00-20:00", "2027-03-23 19:00-20:00", "2027-03-30 19:00-20:00", "2027-04-06 19:00-20:00"],
            Times(look)
        );
    }

    [Fact]
    public async Task A_weekly_time_of_New_York_comes_an_hour_earlier_while_only_New_York_has_summer_time()
    {
        await using var shop = await Open();

        // New York changes on 2027-03-14, Lisbon on 2027-03-28 (tz database; computed independently).
        var look = await Look(
            shop,
            Of(
                Event(
                    "call",
                    "DTSTART;TZID=America/New_York:20270309T143000",
                    "DURATION:PT1H",
                    "RRULE:FREQ=WEEKLY;COUNT=4"
                )
            )
        );

        Assert.Equal(
            ["2027-03-09 19:30-20:30", "2027-03-30 19:30-20:30"],
            Times(look).Where(time => !time.Contains("18:30", StringComparison.Ordinal))
        );
        Assert.Equal(
            ["2027-03-16 18:30-19:30", "2027-03-23 18:30-19:30"],
            Times(look).Where(time => time.Contains("18:30", StringComparison.Ordinal))
        );
    }

    [Fact]
    public async Task A_shop_in_New_York_is_told_by_its_own_clock_and_floating_times_are_its_own()
    {
        await using var shop = await Open("America/New_York");

        var look = await Look(
            shop,
            Of(
                Event("utc", "DTSTART:20270310T003000Z", "DTEND:20270310T010000Z"),
                Event("utc in summer", "DTSTART:20270316T233000Z", "DTEND:20270317T000000Z"),
                Event("floating", "DTSTART:20270311T193000", "DTEND:20270311T200000"),
                Event(
                    "Lisbon",
                    "DTSTART;TZID=Europe/Lisbon:20270313T003000",
                    "DTEND;TZID=Europe/Lisbon:20270313T013000"
                )
            )
        );

        Assert.Equal(
            ["2027-03-09 19:30-20:00", "2027-03-11 19:30-20:00", "2027-03-12 19:30-20:30", "2027-03-16 19:30-20:00"],
            Times(look)
        );
    }

    [Fact]
    public async Task A_zone_by_a_name_of_the_files_own_is_read_from_the_file()
    {
        await using var shop = await Open();

        // The rules of New York since 2007: RFC 5545, section 3.6.5 (value from memory).
        var look = await Look(
            shop,
            Of(
                "BEGIN:VTIMEZONE",
                "TZID:The concert hall",
                "BEGIN:DAYLIGHT",
                "DTSTART:20070311T020000",
                "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU",
                "TZOFFSETFROM:-0500",
                "TZOFFSETTO:-0400",
                "END:DAYLIGHT",
                "BEGIN:STANDARD",
                "DTSTART:20071104T020000",
                "RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU",
                "TZOFFSETFROM:-0400",
                "TZOFFSETTO:-0500",
                "END:STANDARD",
                "END:VTIMEZONE",
                Event(
                    "call",
                    "DTSTART;TZID=The concert hall:20270309T143000",
                    "DTEND;TZID=The concert hall:20270309T153000",
                    "RRULE:FREQ=WEEKLY;COUNT=4"
                )
            )
        );

        Assert.Equal(
            ["2027-03-09 19:30-20:30", "2027-03-16 18:30-19:30", "2027-03-23 18:30-19:30", "2027-03-30 19:30-20:30"],
            Times(look)
        );
    }

    [Theory]
    [InlineData("DTSTART:20990101T000000")]
    [InlineData("DTSTART:19900101T000000", "RRULE:FREQ=SECONDLY")]
    [InlineData("DTSTART:19900101T000000", "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30")]
    public async Task A_zone_that_makes_no_sense_spoils_its_own_events_only(params string[] rule)
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of([
                "BEGIN:VTIMEZONE",
                "TZID:The concert hall",
                "BEGIN:STANDARD",
                .. rule,
                "TZOFFSETFROM:-0400",
                "TZOFFSETTO:-0500",
                "END:STANDARD",
                "END:VTIMEZONE",
                Event(
                    "odd",
                    "DTSTART;TZID=The concert hall:20270309T143000",
                    "DTEND;TZID=The concert hall:20270309T153000"
                ),
                Event("plain", "DTSTART:20270310T190000", "DTEND:20270310T200000"),
            ])
        );

        Assert.Equal(["2027-03-10 19:00-20:00"], Times(look));
        Assert.Single(look.GetProperty("unread").EnumerateArray());
    }
}

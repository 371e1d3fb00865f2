using System.Net;
using System.Text.Json;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>
/// Calendar files over the API, in a shop in Lisbon with evenings 19:00-21:00 on weekdays and Saturdays 9:00-14:00; it
/// is Monday 2027-03-01.
/// </summary>
public sealed class BusyTimesFacts
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_concert_closes_the_evening_and_a_rehearsal_leaves_its_end()
    {
        await using var shop = await Open();

        var kept = await Keep(
            shop,
            Of(
                Event("concert", "DTSTART:20270303T183000", "DTEND:20270303T220000"),
                Event("rehearsal", "DTSTART:20270304T170000", "DTEND:20270304T193000")
            )
        );

        Assert.True(kept.GetProperty("kept").GetBoolean());
        Assert.Equal(["2027-03-03 closed concert", "2027-03-04 19:30-21:00 rehearsal"], await OtherDays(shop));
        var open = (await shop.GetJson("/api/week?from=2027-03-01")).GetProperty("days");
        Assert.Equal([0, 90], new[] { 2, 3 }.Select(day => open[day].GetProperty("openMinutes").GetInt32()));
    }

    [Fact]
    public async Task A_concert_in_the_evening_does_not_keep_parcels_from_leaving_and_a_holiday_does()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event("concert", "DTSTART:20270304T183000", "DTEND:20270304T220000"),
                Event("holiday", "DTSTART;VALUE=DATE:20270308")
            )
        );

        Assert.Equal(
            ["2027-03-04 False", "2027-03-08 True"],
            look.GetProperty("days")
                .EnumerateArray()
                .Select(day => $"{day.GetProperty("date")} {day.GetProperty("parcelsStop").GetBoolean()}")
        );
    }

    [Fact]
    public async Task A_preview_changes_nothing_and_the_same_file_again_changes_nothing_twice()
    {
        await using var shop = await Open();
        var file = Of(Event("concert", "DTSTART:20270303T183000", "DTEND:20270303T220000"));

        var look = await Look(shop, file);
        Assert.Equal(
            "2027-03-03",
            Assert.Single(look.GetProperty("days").EnumerateArray()).GetProperty("date").GetString()
        );
        Assert.Empty(await OtherDays(shop));

        await Keep(shop, file);
        var version = await Version(shop);
        var again = await Keep(shop, file);
        Assert.Empty(again.GetProperty("days").EnumerateArray());
        Assert.Equal(1, again.GetProperty("withoutEffect").GetInt32());
        Assert.Equal(version, await Version(shop));
        Assert.Equal(["2027-03-03 closed concert"], await OtherDays(shop));
    }

    [Fact]
    public async Task A_file_that_has_grown_adds_only_what_is_new()
    {
        await using var shop = await Open();
        var concert = Event("concert", "DTSTART:20270303T183000", "DTEND:20270303T220000");
        await Keep(shop, Of(concert));

        await Keep(
            shop,
            Of(
                concert,
                Event("lesson", "DTSTART:20270303T190000", "DTEND:20270303T193000"),
                Event("early", "DTSTART:20270305T190000", "DTEND:20270305T193000")
            )
        );
        await Keep(shop, Of(Event("late", "DTSTART:20270305T203000", "DTEND:20270305T233000")));

        Assert.Equal(["2027-03-03 closed concert", "2027-03-05 19:30-20:30 early; late"], await OtherDays(shop));
    }

    [Fact]
    public async Task A_time_that_is_left_out_by_its_key_is_not_kept()
    {
        await using var shop = await Open();
        var file = Of(Event("weekly", "DTSTART:20270302T190000", "DTEND:20270302T200000", "RRULE:FREQ=WEEKLY;COUNT=3"));
        var key = (await Look(shop, file)).GetProperty("times")[1].GetProperty("key").GetString()!;

        await Keep(shop, file, $"?leaveOut={Uri.EscapeDataString(key)}");

        Assert.Equal(["2027-03-02 20:00-21:00 weekly", "2027-03-16 20:00-21:00 weekly"], await OtherDays(shop));
    }

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
    public async Task Days_taken_out_and_a_day_put_in_are_respected()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event(
                    "rehearsal",
                    "DTSTART;TZID=Europe/Lisbon:20270316T190000",
                    "DTEND;TZID=Europe/Lisbon:20270316T200000",
                    "RRULE:FREQ=WEEKLY;COUNT=4",
                    "EXDATE;TZID=Europe/Lisbon:20270323T190000",
                    "RDATE;TZID=Europe/Lisbon:20270402T190000"
                )
            )
        );

        Assert.Equal(
            ["2027-03-16 19:00-20:00", "2027-03-30 19:00-20:00", "2027-04-02 19:00-20:00", "2027-04-06 19:00-20:00"],
            Times(look)
        );
    }

    [Theory]
    [InlineData("RECURRENCE-ID;TZID=Europe/Lisbon:20270330T190000")]
    [InlineData("RECURRENCE-ID:20270330T180000Z")]
    public async Task A_recurrence_that_was_moved_is_busy_on_its_new_day_only(string recurrence)
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event(
                    "rehearsal",
                    "DTSTART;TZID=Europe/Lisbon:20270323T190000",
                    "DTEND;TZID=Europe/Lisbon:20270323T200000",
                    "RRULE:FREQ=WEEKLY;COUNT=3"
                ),
                Event(
                    "rehearsal",
                    recurrence,
                    "DTSTART;TZID=Europe/Lisbon:20270401T193000",
                    "DTEND;TZID=Europe/Lisbon:20270401T203000"
                )
            )
        );

        Assert.Equal(["2027-03-23 19:00-20:00", "2027-04-01 19:30-20:30", "2027-04-06 19:00-20:00"], Times(look));
    }

    [Fact]
    public async Task A_change_of_this_and_all_that_follow_moves_those_that_follow()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event("course", "DTSTART:20270302T190000", "DTEND:20270302T200000", "RRULE:FREQ=WEEKLY;COUNT=4"),
                Event(
                    "course",
                    "RECURRENCE-ID;RANGE=THISANDFUTURE:20270316T190000",
                    "DTSTART:20270317T193000",
                    "DTEND:20270317T210000"
                )
            )
        );

        Assert.Equal(
            ["2027-03-02 19:00-20:00", "2027-03-09 19:00-20:00", "2027-03-17 19:30-21:00", "2027-03-24 19:30-21:00"],
            Times(look)
        );
    }

    [Fact]
    public async Task Three_days_away_end_on_the_day_before_the_one_the_file_ends_with()
    {
        await using var shop = await Open();

        await Keep(shop, Of(Event("tour", "DTSTART;VALUE=DATE:20270310", "DTEND;VALUE=DATE:20270313")));

        Assert.Equal(
            ["2027-03-10 closed tour", "2027-03-11 closed tour", "2027-03-12 closed tour"],
            await OtherDays(shop)
        );
    }

    [Fact]
    public async Task A_day_away_closes_a_day_that_is_closed_anyway_once_so_that_nobody_proposes_to_open_it()
    {
        await using var shop = await Open();
        var file = Of(Event("holiday", "DTSTART;VALUE=DATE:20270306", "DTEND;VALUE=DATE:20270309"));

        await Keep(shop, file);
        var again = await Keep(shop, file);

        Assert.Equal(
            ["2027-03-06 closed holiday", "2027-03-07 closed holiday", "2027-03-08 closed holiday"],
            await OtherDays(shop)
        );
        Assert.Empty(again.GetProperty("days").EnumerateArray());
    }

    [Fact]
    public async Task A_cancelled_and_a_transparent_event_are_not_busy()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event("off", "STATUS:CANCELLED", "DTSTART:20270303T190000", "DTEND:20270303T200000"),
                Event("birthday", "TRANSP:TRANSPARENT", "DTSTART;VALUE=DATE:20270304"),
                Event("weekly", "DTSTART:20270305T190000", "DTEND:20270305T200000", "RRULE:FREQ=WEEKLY;COUNT=2"),
                Event(
                    "weekly",
                    "RECURRENCE-ID:20270312T190000",
                    "STATUS:CANCELLED",
                    "DTSTART:20270312T190000",
                    "DTEND:20270312T200000"
                )
            )
        );

        Assert.Equal(["2027-03-05 19:00-20:00"], Times(look));
        Assert.Equal((2, 1), (look.GetProperty("cancelled").GetInt32(), look.GetProperty("free").GetInt32()));
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

    [Fact]
    public async Task Folded_lines_and_either_end_of_line_are_read_alike()
    {
        await using var shop = await Open();
        var folded = Of(
            Event(
                "folded",
                "DESCRIPTION:one long line that goes\r\n  on",
                "DTSTART:2027030\r\n 3T190000",
                "DTEND:20270303T200000"
            )
        );

        var windows = await Look(shop, folded);
        var unix = await Look(shop, folded.Replace("\r\n", "\n", StringComparison.Ordinal));
        var tabs = await Look(shop, "\uFEFF" + folded.Replace("\r\n 3T", "\r\n\t3T", StringComparison.Ordinal));

        Assert.All([windows, unix, tabs], look => Assert.Equal(["2027-03-03 19:00-20:00"], Times(look)));
    }

    [Fact]
    public async Task A_night_concert_takes_from_both_evenings_it_touches()
    {
        await using var shop = await Open();

        await Keep(shop, Of(Event("night", "DTSTART:20270305T203000", "DTEND:20270306T093000")));

        Assert.Equal(["2027-03-05 19:00-20:30 night", "2027-03-06 09:30-14:00 night"], await OtherDays(shop));
    }

    [Fact]
    public async Task An_endless_rule_is_followed_for_a_year_and_the_past_is_left_alone()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(Event("choir", "DTSTART:20200107T190000", "DTEND:20200107T200000", "RRULE:FREQ=WEEKLY"))
        );

        var times = Times(look);
        Assert.Equal(("2027-03-02 19:00-20:00", "2028-02-29 19:00-20:00", 53), (times[0], times[^1], times.Length));
    }

    [Fact]
    public async Task A_rule_that_never_ends_or_never_begins_is_named_and_the_others_are_read()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event("each second", "DTSTART:20000101T000000Z", "DURATION:PT1S", "RRULE:FREQ=SECONDLY"),
                Event(
                    "30 February",
                    "DTSTART:20270101T190000",
                    "DURATION:PT1H",
                    "RRULE:FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30"
                ),
                Event("backwards", "DTSTART:20270303T190000", "DTEND:20270302T190000"),
                Event("nowhere", "DTSTART;TZID=Nowhere/Hall:20270303T190000", "DURATION:PT1H"),
                Event("no start"),
                Event("torn", "DTSTART:20270303T190000", "DTEND:at night"),
                Event("for ever", "DTSTART:20270303T190000", "DURATION:P20000W"),
                Event("concert", "DTSTART:20270303T190000", "DURATION:PT1H")
            )
        );

        Assert.Equal(["2027-03-03 19:00-20:00"], Times(look));
        Assert.Equal(
            ["each second", "30 February", "backwards", "nowhere", "no start", "torn", "for ever"],
            look.GetProperty("unread").EnumerateArray().Select(unread => unread.GetProperty("summary").GetString()!)
        );
    }

    [Theory]
    [InlineData("", "The file holds no calendar.")]
    [InlineData("hello world", "The file cannot be read")]
    [InlineData("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nEND:VCALENDAR\r\n", "The calendar holds no event.")]
    [InlineData("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:20270303T190000\r\n", "The file cannot be read")]
    [InlineData(
        "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nDTSTART:20270303T190000\r\nRRULE:FREQ=SOMETIMES\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n",
        "The file cannot be read"
    )]
    public async Task A_broken_file_is_refused_with_the_reason_and_what_would_be_taken(string file, string reason)
    {
        await using var shop = await Open();

        var problem = await ShopHost.ReadProblem(
            await Send(shop, file),
            HttpStatusCode.UnprocessableEntity,
            "invalid-value"
        );

        Assert.StartsWith(reason, problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.Contains(
            "up to 1 MB and 2000 events",
            problem.GetProperty("allowed").GetString(),
            StringComparison.Ordinal
        );
        Assert.Empty(await OtherDays(shop));
    }

    [Fact]
    public async Task A_file_too_large_or_with_too_many_events_is_refused()
    {
        await using var shop = await Open();
        var concert = Event("concert", "DTSTART:20270303T190000", "DURATION:PT1H");

        var large = await Send(shop, Of($"X-FILLER:{new string('x', 1024 * 1024)}", concert));
        var many = await Send(
            shop,
            Of(
                Enumerable
                    .Range(0, 2001)
                    .Select(n => $"BEGIN:VEVENT\r\nUID:{n}\r\nDTSTART:20270303T190000\r\nEND:VEVENT")
            )
        );

        await ShopHost.ReadProblem(large, HttpStatusCode.RequestEntityTooLarge, "too-large");
        var problem = await ShopHost.ReadProblem(many, HttpStatusCode.UnprocessableEntity, "invalid-value");
        Assert.Equal("The calendar holds 2001 events.", problem.GetProperty("detail").GetString());
    }

    [Fact]
    public async Task Keeping_what_was_looked_at_in_an_older_shop_is_refused_when_the_version_is_sent()
    {
        await using var shop = await Open();
        var file = Of(Event("concert", "DTSTART:20270303T190000", "DURATION:PT1H"));
        await shop.PutJson("/api/shop", ExampleShop.Settings, "*");

        await ShopHost.ReadProblem(
            await Send(shop, file, ifMatch: "\"1\""),
            HttpStatusCode.PreconditionFailed,
            "changed-meanwhile"
        );
        Assert.Empty(await OtherDays(shop));
    }

    private static async Task<ShopHost> Open(string zone = "Europe/Lisbon")
    {
        var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.SettingsIn(zone));
        return shop;
    }

    private static async Task<string?> Version(ShopHost shop) =>
        (await shop.Owner.GetAsync("/api/shop", Cancel)).Headers.ETag?.Tag;

    private static async Task<string[]> OtherDays(ShopHost shop) =>
        [
            .. (await shop.GetJson("/api/shop"))
                .GetProperty("otherDays")
                .EnumerateArray()
                .Select(day =>
                    $"{day.GetProperty("date")} {Hours(day.GetProperty("hours"))} {day.GetProperty("reason")}"
                ),
        ];

    private static string Hours(JsonElement hours) =>
        hours.GetArrayLength() == 0
            ? "closed"
            : string.Join(
                ", ",
                hours.EnumerateArray().Select(open => $"{open.GetProperty("from")}-{open.GetProperty("to")}")
            );
}

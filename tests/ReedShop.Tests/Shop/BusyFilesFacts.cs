using System.Net;
using static ReedShop.Tests.Shop.BusyShop;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>Files as they come: folded, cancelled, broken, too large. The shop is that of <see cref="BusyShop"/>.</summary>
public sealed class BusyFilesFacts
{
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
                Recital
            )
        );

        Assert.Equal(["2027-03-03 19:00-20:00"], Times(look));
        Assert.Equal(
            ["each second", "30 February", "backwards", "nowhere", "no start", "torn", "for ever"],
            look.GetProperty("unread").EnumerateArray().Select(unread => unread.GetProperty("summary").GetString()!)
        );
    }

    [Fact]
    public async Task One_broken_event_does_not_cost_the_others()
    {
        await using var shop = await Open();

        var look = await Look(
            shop,
            Of(
                Event("sometimes", "DTSTART:20270302T190000", "RRULE:FREQ=SOMETIMES"),
                Recital,
                Event("lesson", "DTSTART:20270304T190000", "DURATION:PT1H")
            )
        );

        Assert.Equal(["2027-03-03 19:00-20:00", "2027-03-04 19:00-20:00"], Times(look));
        var broken = Assert.Single(look.GetProperty("unread").EnumerateArray());
        Assert.Equal("sometimes", broken.GetProperty("summary").GetString());
        Assert.NotEqual("", broken.GetProperty("reason").GetString());
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
        var concert = Recital;

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
}

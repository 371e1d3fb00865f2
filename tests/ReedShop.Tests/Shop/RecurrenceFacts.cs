using System.Text.Json;
using System.Text.Json.Nodes;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>
/// Examples of recurrence from RFC 5545, section 3.8.5.3, in a shop of their time and place: New York in 1997, open from
/// nine to ten every day. All begin at nine by the clock of New York.
/// </summary>
public sealed class RecurrenceFacts
{
    private const string Weekly = "09-02 09-09 09-16 09-23 09-30 10-07 10-14 10-21 10-28 11-04";

    [Theory]
    [InlineData("19970902", "FREQ=WEEKLY;COUNT=10", Weekly)]
    [InlineData(
        "19970902",
        "FREQ=WEEKLY;INTERVAL=2;WKST=SU",
        "09-02 09-16 09-30 10-14 10-28 11-11 11-25 12-09 12-23 01-06 01-20 02-03 02-17"
    )]
    [InlineData("19970805", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", "08-05 08-10 08-19 08-24")]
    [InlineData("19970805", "FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", "08-05 08-17 08-19 08-31")]
    [InlineData("19970902", "FREQ=DAILY;COUNT=10", "09-02 09-03 09-04 09-05 09-06 09-07 09-08 09-09 09-10 09-11")]
    [InlineData(
        "19970902",
        "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH",
        "09-02 09-04 09-09 09-11 09-16 09-18 09-23 09-25 09-30 10-02"
    )]
    [InlineData(
        "19970905",
        "FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
        "09-05 10-03 11-07 12-05 01-02 02-06 03-06 04-03 05-01 06-05"
    )]
    [InlineData("19970929", "FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2", "09-29 10-30 11-27 12-30 01-29")]
    [InlineData("19970904", "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3", "09-04 10-07 11-06")]
    public async Task A_rule_names_the_days_its_standard_prints(string first, string rule, string days)
    {
        var times = await Times(first, rule);

        Assert.Equal(days, string.Join(' ', times.Take(days.Split(' ').Length).Select(time => time[5..10])));
        Assert.All(times, time => Assert.EndsWith(" 09:00-10:00", time, StringComparison.Ordinal));
    }

    /// <summary>The count of the daily ones: computed independently.</summary>
    [Theory]
    [InlineData("FREQ=WEEKLY;UNTIL=19971224T000000Z", 17, "1997-12-23")]
    [InlineData("FREQ=DAILY;UNTIL=19971224T000000Z", 113, "1997-12-23")]
    public async Task A_rule_ends_where_its_standard_says(string rule, int count, string last)
    {
        var times = await Times("19970902", rule);

        Assert.Equal((count, last), (times.Length, times[^1][..10]));
    }

    private static async Task<string[]> Times(string first, string rule)
    {
        await using var shop = await ShopHost.Start(new DateTimeOffset(1997, 8, 1, 12, 0, 0, TimeSpan.Zero));
        var settings = JsonSerializer.SerializeToNode(ExampleShop.OpenDailyIn("America/New_York", "07:00"))!;
        foreach (var day in settings["hours"]!.AsObject())
        {
            day.Value![0] = new JsonObject { ["from"] = "09:00", ["to"] = "10:00" };
        }

        await shop.PutJson("/api/shop", settings);
        return CalendarFile.Times(
            await Look(
                shop,
                Of(Event("example", $"DTSTART;TZID=America/New_York:{first}T090000", "DURATION:PT1H", $"RRULE:{rule}"))
            )
        );
    }
}

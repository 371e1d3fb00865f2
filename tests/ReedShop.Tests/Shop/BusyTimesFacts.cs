using System.Net;
using static ReedShop.Tests.Shop.BusyShop;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>What a calendar file takes of the bench hours, looked at and kept over the API. The shop is that of <see cref="BusyShop"/>.</summary>
public sealed class BusyTimesFacts
{
    [Fact]
    public async Task A_concert_closes_the_evening_and_a_rehearsal_leaves_its_end()
    {
        await using var shop = await Open();

        var kept = await Keep(
            shop,
            Of(Concert, Event("rehearsal", "DTSTART:20270304T170000", "DTEND:20270304T193000"))
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
        var file = Of(Concert);

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
        var concert = Concert;
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
    public async Task A_night_concert_takes_from_both_evenings_it_touches()
    {
        await using var shop = await Open();

        await Keep(shop, Of(Event("night", "DTSTART:20270305T203000", "DTEND:20270306T093000")));

        Assert.Equal(["2027-03-05 19:00-20:30 night", "2027-03-06 09:30-14:00 night"], await OtherDays(shop));
    }

    [Fact]
    public async Task Keeping_what_was_looked_at_in_an_older_shop_is_refused_when_the_version_is_sent()
    {
        await using var shop = await Open();
        var file = Of(Recital);
        await shop.PutJson("/api/shop", ExampleShop.Settings, "*");

        await ShopHost.ReadProblem(
            await Send(shop, file, ifMatch: "\"1\""),
            HttpStatusCode.PreconditionFailed,
            "changed-meanwhile"
        );
        Assert.Empty(await OtherDays(shop));
    }
}

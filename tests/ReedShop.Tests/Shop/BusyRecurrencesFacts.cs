using static ReedShop.Tests.Shop.BusyShop;
using static ReedShop.Tests.Shop.CalendarFile;

namespace ReedShop.Tests.Shop;

/// <summary>Events that recur, with what was taken out, put in, moved and changed. The shop is that of <see cref="BusyShop"/>.</summary>
public sealed class BusyRecurrencesFacts
{
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
}

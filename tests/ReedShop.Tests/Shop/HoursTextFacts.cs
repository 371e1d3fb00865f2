using ReedShop.Planning.Bench;
using ReedShop.Shop;

namespace ReedShop.Tests.Shop;

public sealed class HoursTextFacts
{
    [Fact]
    public void Two_stretches_are_read_in_their_order()
    {
        var hours = HoursText.Parse("9:00-12:00, 14:00 – 17:30", "Monday");

        Assert.Equal(
            [
                new OpenHours(new TimeOnly(9, 0), new TimeOnly(12, 0)),
                new OpenHours(new TimeOnly(14, 0), new TimeOnly(17, 30)),
            ],
            hours.Value
        );
        Assert.Equal("9:00-12:00, 14:00-17:30", HoursText.Of(hours.Value));
    }

    [Fact]
    public void Nothing_is_closed() => Assert.Empty(HoursText.Parse("  ", "Sunday").Value);

    [Theory]
    [InlineData("evening")]
    [InlineData("19-21")]
    [InlineData("19:00")]
    [InlineData("19:00-25:00")]
    [InlineData("21:00-19:00")]
    [InlineData("9:00-12:00, 11:00-14:00")]
    [InlineData("14:00-17:00, 9:00-12:00")]
    public void What_are_no_hours_is_refused_by_its_weekday_with_an_example(string text)
    {
        var refusal = HoursText.Parse(text, "Tuesday").Refusal!;

        Assert.Equal("Tuesday", refusal.Field);
        Assert.Contains("19:00-21:00", refusal.Allowed, StringComparison.Ordinal);
    }

    [Fact]
    public void Other_days_are_closed_without_hours_and_open_with_them()
    {
        var days = OtherDaysText
            .Parse(
                "2027-03-03 concert\r\n\r\n2027-03-06 9:00-12:00, 14:00-15:00 extra morning\n2027-03-08",
                "otherDays"
            )
            .Value;

        Assert.Equal(["concert", "extra morning", null], days.Select(day => day.Reason));
        Assert.Equal([0, 2, 0], days.Select(day => day.Hours.Count));
        Assert.Equal(new DateOnly(2027, 3, 6), days[1].Date);
        Assert.Equal(
            "2027-03-03 concert\n2027-03-06 9:00-12:00, 14:00-15:00 extra morning\n2027-03-08",
            OtherDaysText.Of(days)
        );
    }

    [Theory]
    [InlineData("3 March concert")]
    [InlineData("2027-02-30 concert")]
    [InlineData("2027-03-06 9-12 extra morning")]
    public void A_line_without_a_date_or_with_broken_hours_is_refused(string line)
    {
        var refusal = OtherDaysText.Parse(line, "otherDays").Refusal!;

        Assert.Equal("otherDays", refusal.Field);
        Assert.NotNull(refusal.Allowed);
    }
}

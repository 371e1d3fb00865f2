using ReedShop.Planning.Promising;
using Xunit;

namespace ReedShop.Planning.Tests.Promising;

public sealed class KeptRecordFacts
{
    private static readonly DateOnly Monday = new(2027, 3, 1);

    /// <summary>Wilson's interval of 95 in 100: Newcombe (1998), Stat. Med. 17:857, Table I, method 3; values from memory.</summary>
    [Theory]
    [InlineData(81, 263, 0.2553, 0.3662)]
    [InlineData(15, 148, 0.0624, 0.1605)]
    [InlineData(0, 20, 0, 0.1611)]
    [InlineData(1, 29, 0.0061, 0.1718)]
    public void The_interval_of_a_share_agrees_with_the_published_table(int happened, int of, double low, double high)
    {
        var ends = new ShareInterval(happened, of).Ends(1.959963984540054);

        Assert.Equal(low, ends.Low, 5e-5);
        Assert.Equal(high, ends.High, 5e-5);
    }

    [Fact]
    public void With_nothing_seen_everything_is_possible()
    {
        var none = KeptRecord.Of([]).All;

        Assert.Null(none.Kept.Share);
        Assert.Equal((0, 1), (none.Kept.Low, none.Kept.High));
        Assert.True(none.AgreesWithStated);
    }

    [Fact]
    public void A_day_that_was_given_up_is_not_kept_even_if_the_parcel_left_by_it()
    {
        var givenUp = new PassedPromise(Monday, 0.9, Monday, CameShort: false, WasGivenUp: true);

        Assert.Equal(0, KeptRecord.Of([givenUp]).All.Kept.Happened);
        Assert.Equal(1, KeptRecord.Of([givenUp with { WasGivenUp = false }]).All.Kept.Happened);
    }

    [Fact]
    public void A_parcel_that_left_late_or_has_not_left_breaks_its_promise()
    {
        var record = KeptRecord.Of([
            Promise(0.9, daysLate: 0),
            Promise(0.9, daysLate: -2),
            Promise(0.9, daysLate: 3, cameShort: true),
            new PassedPromise(Monday, 0.9, null, false),
        ]);

        Assert.Equal(new ShareInterval(2, 4), record.All.Kept);
        Assert.Equal(3, record.All.DaysLate);
        Assert.Equal(1, record.All.LateAndShort);
    }

    [Fact]
    public void One_broken_promise_of_five_says_little_twenty_of_a_hundred_say_much()
    {
        Assert.True(KeptRecord.Of(Some(5, broken: 1)).All.AgreesWithStated);
        Assert.False(KeptRecord.Of(Some(100, broken: 20)).All.AgreesWithStated);
    }

    [Fact]
    public void Bold_promises_and_sober_ones_are_told_apart_and_so_are_months()
    {
        var record = KeptRecord.Of([
            Promise(0.75, 1),
            Promise(0.95, 0),
            Promise(0.96, 0) with
            {
                ShipBy = new DateOnly(2027, 4, 2),
                Shipped = new DateOnly(2027, 4, 1),
            },
        ]);

        Assert.Equal([0.7, 0.93], record.ByChance.Select(group => group.From));
        Assert.Equal([1, 2], record.ByChance.Select(group => group.Group.Kept.Of));
        Assert.Equal([3, 4], record.ByMonth.Select(group => group.Month.Month));
    }

    private static PassedPromise[] Some(int count, int broken) =>
        [.. Enumerable.Range(0, count).Select(number => Promise(0.9, number < broken ? 1 : 0))];

    private static PassedPromise Promise(double chance, int daysLate, bool cameShort = false) =>
        new(Monday, chance, Monday.AddDays(daysLate), cameShort);
}

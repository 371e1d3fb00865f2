using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using Xunit;

namespace ReedShop.Planning.Tests.Promising;

/// <summary>
/// Three nights ahead, one night in ten damp. Dry enough with 0, 1, 2 and 3 spare days, computed independently by
/// listing the cases: .729, .9477, .99144, .99873.
/// </summary>
public sealed class DueDayFacts
{
    private static readonly WayAhead ThreeNights = new(3, 4);
    private static readonly BenchHazards Damp = BenchHazards.OnlyDamp(0.1);
    private static readonly DateOnly Today = new(2027, 3, 1);

    [Theory]
    [InlineData(1.00, 1)] // .9477
    [InlineData(0.93, 2)] // .8814, .9220
    [InlineData(0.902, 3)] // .8943, .9009
    [InlineData(0.9002, 4)] // .8991, and four get there by a hair
    public void As_many_spare_days_are_kept_as_the_stated_chance_asks_for(double cover, int spareDays) =>
        Assert.Equal(spareDays, DueDay.SpareDays(0.9, cover, ThreeNights, Damp, Today));

    [Fact]
    public void An_order_with_hardly_a_chance_keeps_the_spare_days_that_help_it() =>
        Assert.Equal(3, DueDay.SpareDays(0.9, 0.002, ThreeNights, Damp, Today));

    [Fact]
    public void Blanks_that_came_out_well_let_the_due_day_relax()
    {
        Assert.Equal(2, DueDay.SpareDays(0.92, 0.93, ThreeNights, Damp, Today));
        Assert.Equal(1, DueDay.SpareDays(0.92, 0.98, ThreeNights, Damp, Today));
    }

    [Fact]
    public void A_night_that_is_over_needs_no_spare_day_any_more()
    {
        Assert.Equal(1, DueDay.SpareDays(0.9, 1, ThreeNights, Damp, Today));
        Assert.Equal(0, DueDay.SpareDays(0.9, 1, new(1, 2), Damp, Today));
    }

    /// <summary>
    /// With a cover of .7 nothing reaches .9. Two spare days give .6940, three .6991, five nearly .7: the third still
    /// helps by more than two thousandths, the fourth does not.
    /// </summary>
    [Fact]
    public void What_no_spare_day_can_mend_takes_no_more_of_them_than_help() =>
        Assert.Equal(3, DueDay.SpareDays(0.9, 0.7, ThreeNights, Damp, Today));

    [Fact]
    public void The_due_day_leaves_the_spare_days_open_before_the_parcel_goes()
    {
        var weekdays = new BenchCalendar(
            new[]
            {
                DayOfWeek.Monday,
                DayOfWeek.Tuesday,
                DayOfWeek.Wednesday,
                DayOfWeek.Thursday,
                DayOfWeek.Friday,
            }.ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[new(new(19, 0), new(21, 0))]),
            new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
        );
        var monday = new DateOnly(2027, 3, 15);

        // Closed on Saturday and Sunday: the spare days are Friday and Thursday.
        Assert.Equal(new DateOnly(2027, 3, 14), DueDay.Leaving(weekdays, Today, monday, 0));
        Assert.Equal(new DateOnly(2027, 3, 10), DueDay.Leaving(weekdays, Today, monday, 2));
        Assert.Equal(Today, DueDay.Leaving(weekdays, Today, new DateOnly(2027, 3, 2), 5));
    }
}

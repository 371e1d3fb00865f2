using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using Xunit;

namespace ReedShop.Planning.Tests.Promising;

public sealed class DelayFacts
{
    private static readonly DateOnly Monday = new(2027, 3, 1);

    /// <summary>
    /// One night damp with .1, two evenings each missed with .2, computed independently by listing the cases: no delay
    /// .9 x .8^2 = .576; one day more, .1 x .9 x .64 + .9 x 2 x .2 x .64 = .288.
    /// </summary>
    [Theory]
    [InlineData(0, 0.576)]
    [InlineData(1, 0.864)]
    public void Damp_nights_and_lost_evenings_add_up(int spare, double chance)
    {
        var hazards = BenchHazards.OnlyDamp(0.1) with { LostEvening = 0.2 };

        Assert.Equal(chance, Delays.ChanceWithin(new(1, 2), spare, hazards, Monday), 12);
    }

    [Fact]
    public void The_damp_of_the_month_ahead_counts()
    {
        var wetMarch = BenchHazards.OnlyDamp(0) with { DampByMonth = [0, 0, 0.3, 0, 0, 0, 0, 0, 0, 0, 0, 0] };

        Assert.Equal(0.7, Delays.ChanceWithin(new(1, 0), 0, wetMarch, Monday), 12);
        Assert.Equal(1, Delays.ChanceWithin(new(1, 0), 0, wetMarch, new DateOnly(2027, 6, 1)), 12);
    }
}

using ReedShop.Planning.Promising;
using Xunit;

namespace ReedShop.Planning.Tests.Promising;

public sealed class ReedsOrderedFacts
{
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength Three = Strength.OfQuarters(12);

    /// <summary>Two orders in forty days: one for ten threes, one for four that takes a half step either side.</summary>
    [Fact]
    public void An_order_takes_what_it_wants_first_and_half_as_much_of_what_is_as_good()
    {
        var ordered = ReedsOrdered.Of([(Today.AddDays(-40), Ask(10, 0)), (Today.AddDays(-10), Ask(4, 1))], Today);

        Assert.Equal(new ReedsOrdered(2 / 40.0, 7), ordered[("clarinet", Three)]);
        Assert.Equal(new ReedsOrdered(1 / 40.0, 2), ordered[("clarinet", Strength.OfQuarters(14))]);
        Assert.DoesNotContain(("clarinet", Strength.OfQuarters(15)), ordered.Keys);
    }

    [Fact]
    public void Orders_of_more_than_half_a_year_ago_say_nothing() =>
        Assert.Empty(ReedsOrdered.Of([(Today.AddDays(-ReedsOrdered.Days - 1), Ask(10, 0))], Today));

    private static PromiseRequest Ask(int quantity, int neighbours) =>
        new([new PromiseLine("clarinet", Three, quantity)], 0.9, neighbours);
}

using ReedShop.Planning.Scheduling;
using Xunit;
using static ReedShop.Planning.Tests.Scheduling.Given;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class PlanCostFacts
{
    private static readonly WorkBatch Batch2 = Batch("A", 5, Sitting(40, nights: 2), Sitting(30)) with { Weight = 3 };

    [Theory]
    [InlineData(new[] { 3, 5 }, 0)]
    [InlineData(new[] { 1, 3 }, 2)]
    [InlineData(new[] { 1, 5 }, 2)]
    [InlineData(new[] { 4, 6 }, 3000)]
    [InlineData(new[] { 4, 7 }, 6001)]
    public void A_place_costs_its_lateness_its_earliness_and_its_extra_nights(int[] days, long cost) =>
        Assert.Equal(cost, PlanCost.Of(Evenings(9, 60, Batch2), Plan(("A", days))));

    [Fact]
    public void Work_that_no_promise_waits_for_costs_a_little_for_each_day_it_waits() =>
        Assert.Equal(
            4,
            PlanCost.Of(Evenings(9, 60, Batch2 with { DueDay = null, ReleaseDay = 1 }), Plan(("A", [5, 7])))
        );

    [Fact]
    public void Leaving_a_batch_out_costs_more_than_any_lateness() =>
        Assert.True(
            PlanCost.Of(Evenings(9, 60, Batch2), Plan()) > PlanCost.Of(Evenings(9, 60, Batch2), Plan(("A", [6, 8])))
        );
}

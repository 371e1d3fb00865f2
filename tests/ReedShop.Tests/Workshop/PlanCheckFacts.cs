using ReedShop.Planning.Scheduling;
using ReedShop.Workshop;

namespace ReedShop.Tests.Workshop;

public sealed class PlanCheckFacts
{
    private static readonly Workload TwoOnOneEvening = new(
        [60, 60],
        RackBlanks: 20,
        new Dictionary<string, int>(),
        [Batch("1"), Batch("2")]
    );

    [Fact]
    public void A_plan_that_keeps_every_rule_is_stored()
    {
        var plan = Days(("1", 0), ("2", 1));
        Assert.Same(plan, PlanCheck.Kept(TwoOnOneEvening, plan));
    }

    [Fact]
    public void A_plan_that_breaks_a_rule_is_a_fault_that_names_the_rule()
    {
        var fault = Assert.Throws<PlanBrokenException>(() => PlanCheck.Kept(TwoOnOneEvening, Days(("1", 0), ("2", 0))));
        Assert.Equal(PlanRule.OpenMinutes, Assert.Single(fault.Breaches).Rule);
        Assert.Contains("OpenMinutes on day 0, 80 where 60 is allowed", fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_batch_without_a_place_is_shown_and_is_no_fault()
    {
        var plan = Days(("1", 0));
        Assert.Same(plan, PlanCheck.Kept(TwoOnOneEvening, plan));
    }

    private static WorkBatch Batch(string id) => new(id, 5, 0, null, [new WorkSitting(40, [], 0)]);

    private static Plan Days(params (string Batch, int Day)[] days) =>
        new(days.ToDictionary(day => day.Batch, day => new[] { day.Day }, StringComparer.Ordinal));
}

using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

public sealed class PlanFacts
{
    /// <summary>Whoever is put on the bench first chooses among all hands, so those named must come before.</summary>
    [Fact]
    public void A_batch_on_other_days_comes_after_all_others_and_nobody_is_named_for_it()
    {
        var plan = Given.Plan(("A", [1]), ("B", [2])) with
        {
            People = new Dictionary<string, int[]> { ["A"] = [1], ["B"] = [0] },
        };

        var moved = plan.With("A", [3]);

        Assert.Equal(["B", "A"], moved.Days.Keys);
        Assert.Equal([3], moved.Days["A"]);
        Assert.Equal(["B"], moved.People.Keys);
    }
}

using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>
/// Lets the runtime compile the planner before the clock runs: a service is warm when it is asked, so the lab is too.
/// </summary>
internal static class Warm
{
    private static readonly TimeSpan Time = TimeSpan.FromMilliseconds(80);

    public static void Up()
    {
        var batches = Enumerable.Range(0, 12).Select(Batch).ToArray();
        var work = new Workload(
            [.. Enumerable.Repeat(90, 80)],
            60,
            new Dictionary<string, int>(StringComparer.Ordinal) { ["plate"] = 5, ["profile"] = 10 },
            batches
        );
        var plan = Planner.Build(work, PlanBudget.Within(Time, TimeProvider.System));
        Planner.QuoteEarliest(work, plan, Batch(12), PlanBudget.Within(Time, TimeProvider.System));
    }

    private static WorkBatch Batch(int n) =>
        new(
            $"W{n}",
            15,
            n / 2,
            12 + (2 * n),
            [new(40, ["plate"], 1, 4), new(30, ["profile", "plate"], 2), new(25, [], 1, 5), new(30, ["profile"], 0)]
        );
}

using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>Small workloads, written as short as they are.</summary>
internal static class Given
{
    public static Workload Evenings(int days, int minutes, params WorkBatch[] batches) =>
        new([.. Enumerable.Repeat(minutes, days)], 100, SetUps(("plate", 10), ("clip", 5)), batches);

    public static Dictionary<string, int> SetUps(params (string Key, int Minutes)[] setUps) =>
        setUps.ToDictionary(setUp => setUp.Key, setUp => setUp.Minutes, StringComparer.Ordinal);

    public static WorkBatch Batch(string id, int? due, params WorkSitting[] sittings) => new(id, 10, 0, due, sittings);

    public static WorkSitting Sitting(int minutes, int nights = 0, int? most = null, params string[] setUps) =>
        new(minutes, setUps, nights, most);

    public static Plan Plan(params (string Id, int[] Days)[] batches) =>
        new(batches.ToDictionary(batch => batch.Id, batch => batch.Days, StringComparer.Ordinal));

    public static Plan Build(Workload work, PlanBudget budget) =>
        Planner.Build(work, budget, TestContext.Current.CancellationToken);

    public static Plan Replan(Workload work, Plan current, PlanBudget budget) =>
        Planner.Replan(work, current, budget, TestContext.Current.CancellationToken);

    public static Plan? Quote(Workload work, Plan promised, WorkBatch newcomer, PlanBudget budget) =>
        Planner.QuoteEarliest(work, promised, newcomer, budget, TestContext.Current.CancellationToken);
}

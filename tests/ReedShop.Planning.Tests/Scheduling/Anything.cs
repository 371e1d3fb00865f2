using CsCheck;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>Random workloads, small enough to try every plan of a batch.</summary>
internal static class Anything
{
    private static readonly Dictionary<string, int> SetUps = Given.SetUps(("a", 5), ("b", 10), ("c", 20));

    private static readonly Gen<string[]> Keys = Gen.OneOf(
        Gen.Const<string[]>([]),
        Gen.Const<string[]>(["a"]),
        Gen.Const<string[]>(["b"]),
        Gen.Const<string[]>(["a", "c"]),
        Gen.Const<string[]>(["b", "c"])
    );

    private static readonly Gen<WorkSitting> Sitting =
        from minutes in Gen.Int[5, 50]
        from keys in Keys
        from nights in Gen.Int[0, 3]
        from spare in Gen.Int[-1, 3]
        select new WorkSitting(minutes, keys, nights, spare < 0 ? null : Math.Max(1, nights) + spare);

    public static Gen<WorkBatch> Batch(int days) =>
        from blanks in Gen.Int[5, 30]
        from release in Gen.Int[0, days / 2]
        from due in Gen.Int[-1, days]
        from weight in Gen.Int[1, 3]
        from lying in Gen.Int[0, 4]
        from latest in Gen.Int[-2 * days, days]
        from sittings in Sitting.Array[1, 3]
        select new WorkBatch(
            "",
            blanks,
            release,
            due < 0 ? null : due,
            sittings,
            weight,
            lying == 0,
            latest < 0 ? null : latest
        );

    public static Gen<Workload> Work(int days, int most) =>
        from minutes in Gen.OneOf(Gen.Const(0), Gen.Int[40, 120]).Array[days]
        from rack in Gen.Int[30, 60]
        from charge in Gen.Enum<RackCharge>()
        from batches in Batch(days).Array[1, most]
        select new Workload(minutes, rack, SetUps, [.. batches.Select((b, n) => b with { Id = $"B{n}" })], charge);

    /// <summary>Every choice of days that obeys the rules among the others.</summary>
    public static IEnumerable<int[]> Places(Workload work, Plan others, WorkBatch batch)
    {
        var all = work with { Batches = [.. work.Batches.Where(other => other.Id != batch.Id), batch] };
        return from days in Choices(batch, work.OpenMinutes.Count, [])
            let days2 = new Dictionary<string, int[]>(others.Days) { [batch.Id] = days }
            where PlanRules.Check(all, new Plan(days2)).All(breach => breach.Rule == PlanRule.EveryBatchPlanned)
            select days;
    }

    private static IEnumerable<int[]> Choices(WorkBatch batch, int horizon, int[] chosen)
    {
        if (chosen.Length == batch.Sittings.Count)
        {
            return [chosen];
        }

        var from = chosen.Length == 0 ? 0 : chosen[^1] + 1;
        return Enumerable.Range(from, horizon - from).SelectMany(day => Choices(batch, horizon, [.. chosen, day]));
    }
}

using CsCheck;
using ReedShop.Planning.Bench;
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
        from hours in Gen.OneOf(Gen.Const(0), Gen.Int[8, 24])
        from blanks in Gen.Int[-20, 20]
        select new WorkSitting(
            minutes,
            keys,
            nights,
            spare < 0 ? null : Math.Max(1, nights) + spare,
            LeastHours: hours,
            Tiring: blanks <= 0 ? null : new TiringWork("play", blanks)
        );

    /// <summary>Evenings, and days open from the morning on.</summary>
    private static readonly Gen<DaySpan> Span = Gen.OneOf(
        Gen.Const(new DaySpan(18 * 60, 22 * 60)),
        Gen.Const(new DaySpan(8 * 60, 17 * 60))
    );

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
        from minutes in Minutes(days)
        from helpers in Gen.OneOf(Gen.Const(Array.Empty<int[]>()), Minutes(days).Array[1])
        from spans in Span.Array[days]
        from blanks in Gen.Int[20, 40]
        from rack in Gen.Int[30, 60]
        from charge in Gen.Enum<RackCharge>()
        from batches in Batch(days).Array[1, most]
        select new Workload(minutes, rack, SetUps, [.. batches.Select((b, n) => b with { Id = $"B{n}" })], charge)
        {
            Helpers = helpers,
            Spans = spans,
            MostBlanks = new Dictionary<string, int>(StringComparer.Ordinal) { ["play"] = blanks },
        };

    /// <summary>Every choice of days that obeys the rules among the others, whoever does the work on them.</summary>
    public static IEnumerable<int[]> Places(Workload work, Plan others, WorkBatch batch)
    {
        var all = work with { Batches = [.. work.Batches.Where(other => other.Id != batch.Id), batch] };
        return from days in Choices(batch, work.OpenMinutes.Count, [])
            where Hands(work.People, days.Length, []).Any(people => IsKept(all, others, batch.Id, days, people))
            select days;
    }

    private static bool IsKept(Workload all, Plan others, string id, int[] days, int[] people)
    {
        var plan = new Plan(new Dictionary<string, int[]>(others.Days) { [id] = days })
        {
            People = new Dictionary<string, int[]>(others.People) { [id] = people },
        };
        return PlanRules.Check(all, plan).All(breach => breach.Rule == PlanRule.EveryBatchPlanned);
    }

    private static Gen<int[]> Minutes(int days) => Gen.OneOf(Gen.Const(0), Gen.Int[40, 120]).Array[days];

    private static IEnumerable<int[]> Hands(int people, int sittings, int[] chosen) =>
        chosen.Length == sittings
            ? [chosen]
            : Enumerable.Range(0, people).SelectMany(person => Hands(people, sittings, [.. chosen, person]));

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

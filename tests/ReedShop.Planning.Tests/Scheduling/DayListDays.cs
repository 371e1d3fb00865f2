using CsCheck;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>Days as they may come: open hours and the sittings planned for them.</summary>
internal sealed record Day(OpenHours[] Hours, DaySitting[] Sittings)
{
    private static readonly SetUp[] SetUps = [new("coarse plate", 8), new("profiler", 12), new("bowl", 0)];

    public DayList List() => DayList.For(Hours, Sittings);

    /// <summary>So many sittings in priority order, without a most per day, of few enough steps to enumerate.</summary>
    public static Gen<Day> Small(int sittings, int mostSteps) =>
        Gen.Select(
            AnyHours,
            AnySitting(AnyStep).Array[sittings],
            (hours, any) => new Day(hours, Named(WithMostSteps(any, mostSteps)))
        );

    /// <summary>Sittings of any priority, caps, days that are too short.</summary>
    public static Gen<Day> Any(int mostSittings) =>
        Gen.Select(
            Gen.OneOf(AnyHours, Gen.Const(Array.Empty<OpenHours>())),
            Gen.Select(
                AnySitting(Gen.Select(AnyStep, Gen.Int[0, 15], Capped)),
                Gen.Int[1, 3],
                (sitting, priority) => sitting with { Priority = priority }
            ).Array[0, mostSittings],
            (hours, sittings) => new Day(hours, Named(sittings))
        );

    private static Gen<OpenHours[]> AnyHours =>
        Gen.Select(Gen.Int[0, 180], Gen.Int[20, 200], Gen.Int[10, 90], Gen.Int[20, 300], Gen.Bool, HoursOf);

    private static Gen<Step> AnyStep => Gen.Select(Gen.Int[0, 2], Gen.Int[1, 12], Gen.Int[0, 60], StepOf);

    private static OpenHours[] HoursOf(int opens, int morning, int noon, int afternoon, bool twice)
    {
        var eight = new TimeOnly(8, 0);
        var first = new OpenHours(eight.AddMinutes(opens), eight.AddMinutes(opens + morning));
        var second = new OpenHours(first.To.AddMinutes(noon), first.To.AddMinutes(noon + afternoon));
        return twice ? [first, second] : [first with { To = first.To.AddMinutes(afternoon) }];
    }

    private static Step StepOf(int key, int halfMinutes, int soak) =>
        new(
            $"{SetUps[key].Key}, {halfMinutes}",
            SetUps[key],
            30 * halfMinutes,
            soak > 20 ? new Follow.Soak(soak) : new Follow.StraightOn()
        );

    private static Step Capped(Step step, int most) => most < 10 ? step with { MostPerDay = most } : step;

    private static Gen<DaySitting> AnySitting(Gen<Step> step) =>
        Gen.Select(
            step.Array[1, 3],
            Gen.Int[1, 12],
            Gen.Int[-300, 240],
            (steps, blanks, wait) =>
                new DaySitting("", blanks, steps, 1, wait < 0 ? null : new TimeOnly(8, 0).AddMinutes(wait), 1)
        );

    /// <summary>Leaves every sitting its first step, and further ones as long as they are allowed.</summary>
    private static DaySitting[] WithMostSteps(DaySitting[] sittings, int mostSteps)
    {
        var spare = mostSteps - sittings.Length;
        var fewer = new List<DaySitting>();
        foreach (var sitting in sittings)
        {
            var steps = sitting.Steps.Take(1 + spare).ToArray();
            spare -= steps.Length - 1;
            fewer.Add(sitting with { Steps = steps });
        }

        return [.. fewer];
    }

    private static DaySitting[] Named(DaySitting[] sittings) =>
        [.. sittings.Select((sitting, index) => sitting with { Batch = $"{index}" })];
}

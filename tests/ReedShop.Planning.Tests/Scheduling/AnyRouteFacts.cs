using CsCheck;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using Xunit;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>Whatever a maker writes down as a route and as hours, the plan keeps every rule. Invented throughout.</summary>
public sealed class AnyRouteFacts
{
    private static readonly DateOnly Monday = new(2027, 3, 1);
    private const int Days = 90;

    private static readonly Gen<Follow> Rest = Gen.OneOf<Follow>(
        Gen.Const<Follow>(new Follow.StraightOn()),
        Gen.Int[10, 60].Select(minutes => (Follow)new Follow.Soak(minutes)),
        Gen.Select(Gen.Int[1, 3], Gen.Int[1, 24], Gen.Int[-3, 4])
            .Select(
                (nights, hours, spare) => (Follow)new Follow.Dry(nights, hours, spare < 0 ? null : nights + 1 + spare)
            )
    );

    private static Gen<Step> StepCalled(string name) =>
        from key in Gen.OneOf(Gen.Const("plate"), Gen.Const("knife"), Gen.Const("clip"))
        from setUp in Gen.Int[0, 15]
        from seconds in Gen.Int[20, 300]
        from rest in Rest
        from most in Gen.Int[-20, 20]
        select new Step(
            name,
            new SetUp(key, setUp),
            seconds,
            rest,
            ReedShop.Planning.Routes.Check.Counted,
            most < 5 ? null : most
        );

    private static readonly Gen<ReedRoute> Route =
        from preparing in StepCalled("flatten")
        from drying in Gen.Int[1, 3]
        from soaking in StepCalled("soak")
        from profiling in StepCalled("profile")
        from playing in StepCalled("play in")
        select new ReedRoute([
            new Leg("preparing", true, [preparing, soaking with { Then = new Follow.Dry(drying, 12, null) }]),
            new Leg("finishing", false, [profiling, playing with { Then = new Follow.StraightOn() }]),
        ]);

    private static readonly Gen<OpenHours> Hours = Gen.Select(Gen.Int[7, 19], Gen.Int[1, 4])
        .Select((from, hours) => new OpenHours(new TimeOnly(from, 0), new TimeOnly(from + hours, 0)));

    private static readonly Gen<BenchCalendar> Calendar = Hours
        .Array[0, 1]
        .Array[7]
        .Select(week => new BenchCalendar(
            Enum.GetValues<DayOfWeek>().ToDictionary(day => day, day => (IReadOnlyList<OpenHours>)week[(int)day]),
            new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
        ));

    private static readonly Gen<(int Blanks, int First, int Release, int Due)> Asked = Gen.Select(
        Gen.Int[1, 30],
        Gen.Int[1, 4],
        Gen.Int[0, 20],
        Gen.Int[5, 80]
    );

    [Fact]
    public void Any_route_and_any_hours_give_a_plan_that_keeps_every_rule()
    {
        var planned = 0;
        Gen.Select(Route, Calendar, Asked.Array[1, 8], Gen.Int[20, 80])
            .Sample(
                (route, calendar, asked, rack) =>
                {
                    var work = Work(route, calendar, asked, rack);
                    var plan = Given.Build(work, new PlanBudget(40));
                    Assert.All(
                        PlanRules.Check(work, plan),
                        breach => Assert.Equal(PlanRule.EveryBatchPlanned, breach.Rule)
                    );
                    Interlocked.Add(ref planned, plan.Days.Count);
                },
                iter: 300
            );
        Assert.True(planned > 300, $"{planned} batches found a place");
    }

    private static Workload Work(
        ReedRoute route,
        BenchCalendar calendar,
        (int Blanks, int First, int Release, int Due)[] asked,
        int rack
    ) =>
        new(
            calendar.OpenMinutes(Monday, Days),
            rack,
            BatchWork.SetUpMinutes([route]),
            [
                .. asked.Select(
                    (batch, n) =>
                        new WorkBatch(
                            $"B{n}",
                            batch.Blanks,
                            batch.Release,
                            batch.Due,
                            [.. Sittings(route, calendar, batch.First, batch.Blanks)]
                        )
                ),
            ]
        )
        {
            Spans = calendar.Spans(Monday, Days),
            MostBlanks = BatchWork.MostBlanks([route]),
        };

    private static IEnumerable<WorkSitting> Sittings(ReedRoute route, BenchCalendar calendar, int first, int blanks) =>
        BatchWork
            .Sittings(route, first, route.Steps.Count, blanks, calendar.UsualMinutes(Monday))
            .Select(sitting => sitting.Work);
}

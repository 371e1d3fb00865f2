using System.Diagnostics;
using System.Globalization;
using ReedShop.Lab.Trials;
using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab;

/// <summary>
/// How long draws of a whole shop take, by open batches and draws. On one core where the process has one; it says how many
/// it had.
/// </summary>
internal static class DrawTimes
{
    private const int Horizon = 300;
    private const int Nodes = 16;
    private const int Repeats = 7;
    private const int Warm = 40;
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength Wanted = Strength.OfQuarters(14);
    private static readonly TrialModel Clarinet = TrialModel.All[0];

    public static string Table()
    {
        var sizes = new[] { 20, 40, 80 };
        var lines = from batches in sizes from draws in new[] { 500, 2000 } select Line(batches, draws);
        return $"""
            on {Environment.ProcessorCount} cores, warm, median and worst of {Repeats}
            | open batches | draws | forecast |
            |---|---|---|
            {string.Join('\n', lines)}

            | open batches | an order of six, draws kept | the shop has just changed |
            |---|---|---|
            {string.Join('\n', sizes.Select(Asking))}

            """;
    }

    private static string Line(int batches, int draws)
    {
        var shop = Shop(batches);
        var forecast = Times(repeat =>
        {
            var outlook = Forecast.Of(shop, draws, first: repeat * draws);
            if (outlook.Promises.Any(promise => promise.Chance is < 0 or > 1))
            {
                throw new InvalidOperationException("A chance is none.");
            }
        });
        return FormattableString.Invariant($"| {batches} | {draws} | {forecast} |");
    }

    /// <summary>The whole answer to an order that asks: closed form, choosing draws and fresh ones.</summary>
    private static string Asking(int batches)
    {
        var shop = Shop(batches);
        var kept = Times(_ => Ask(shop));
        var changed = Times(_ => Ask(shop with { Promises = [.. shop.Promises] }));
        return FormattableString.Invariant($"| {batches} | {kept} | {changed} |");

        static void Ask(ShopState shop)
        {
            var request = new PromiseRequest([new PromiseLine(Clarinet.Name, Wanted, 6)], 0.8, 0);
            if (ForecastPromiser.PromiseAmongStanding(shop, request, fresh: true).Promise is null)
            {
                throw new InvalidOperationException("Nothing could be promised.");
            }
        }
    }

    /// <summary>Once the runtime has compiled for speed.</summary>
    private static string Times(Action<int> run)
    {
        for (var i = 0; i < Warm; i++)
        {
            run(i);
        }

        var times = new double[Repeats];
        for (var i = 0; i < Repeats; i++)
        {
            var start = Stopwatch.GetTimestamp();
            run(i);
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        return string.Create(
            CultureInfo.InvariantCulture,
            $"{times.Order().ElementAt(Repeats / 2):0} ms, {times.Max():0} ms"
        );
    }

    /// <summary>As many batches of 12 to 20 blanks, each with an order of half of them, all still to be begun and due three days after the plan has them done.</summary>
    internal static ShopState Shop(int batches)
    {
        var bench = Bench();
        var free = new Workload(
            bench.OpenMinutes(Today, Horizon),
            16 * batches,
            BatchWork.SetUpMinutes([Clarinet.Route]),
            [.. Enumerable.Range(0, batches).Select(number => WorkOf(number, bench))]
        );
        var plan = Planner.Build(free, new PlanBudget(Rounds: 0));
        var work = free with { Batches = [.. free.Batches.Select(batch => batch with { DueDay = Finish(batch) + 3 })] };
        return new ShopState(
            Today,
            bench,
            new ShipCalendar(new HashSet<DayOfWeek> { DayOfWeek.Monday, DayOfWeek.Thursday }, new HashSet<DateOnly>()),
            BenchHazards.OnlyDamp(0.1) with
            {
                Persistence = 0.3,
                LostEvening = 0.05,
                SlowEvening = 0.05,
                SlowShare = 0.5,
            },
            24,
            work,
            plan,
            new Dictionary<(string, Strength), int>(),
            new Dictionary<string, ModelSupply>
            {
                [Clarinet.Name] = new(
                    Clarinet.Route,
                    _ => Yields,
                    [],
                    [new CaneSupply("north", Today.AddYears(-1), 2000)]
                ),
            },
            []
        )
        {
            Trays = [.. work.Batches.Select((batch, number) => Tray(batch, number, bench))],
            Promises = [.. work.Batches.Select(Order).OrderBy(order => order.ShipBy)],
        };

        int Finish(WorkBatch batch) => batch.FinishDay(plan.Days[batch.Id]);

        OpenPromise Order(WorkBatch batch) =>
            new(
                batch.Id,
                Today.AddDays(Finish(batch) + 7),
                [new PeggedReeds(batch.Id, Clarinet.Name, [Wanted], batch.Blanks / 2)],
                0.9
            );
    }

    private static BenchCalendar Bench() =>
        new(
            Enum.GetValues<DayOfWeek>()
                .Where(day => day != DayOfWeek.Sunday)
                .ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[new(new(18, 0), new(21, 0))]),
            new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
        );

    private static int Blanks(int number) => 12 + (number * 5 % 9);

    private static IReadOnlyList<BenchSitting> Sittings(int number, BenchCalendar bench) =>
        BatchWork.Sittings(Clarinet.Route, 1, Clarinet.Route.Steps.Count, Blanks(number), bench.UsualMinutes(Today));

    private static WorkBatch WorkOf(int number, BenchCalendar bench) =>
        new(
            string.Create(CultureInfo.InvariantCulture, $"B{number}"),
            Blanks(number),
            1,
            null,
            [.. Sittings(number, bench).Select(sitting => sitting.Work)]
        );

    private static OpenTray Tray(WorkBatch batch, int number, BenchCalendar bench) =>
        new(batch.Id, batch.Id, Clarinet.Name, Wanted, "north", 1, batch.Blanks, Sittings(number, bench));

    private static readonly YieldEstimate Yields = YieldEstimate.Of(
        Clarinet
            .Route.Steps.Where(step => step.Check != Planning.Routes.Check.None)
            .ToDictionary(step => step.Name, step => Survivors(step.Name)),
        YieldEstimates
            .From(new([], [.. Enumerable.Range(1, 12).Select(Graded)]), Today, YieldSettings.Default)
            .For(Clarinet.Name, null)
            .Grades
    );

    private static StepYield Survivors(string step)
    {
        double[] weights = [.. Enumerable.Repeat(1.0 / Nodes, Nodes)];
        return new StepYield(
            weights,
            [.. weights.Select((_, node) => new SurvivalMix([(1, new BetaBinomial(0.98 - (0.003 * node), 0.02))]))]
        )
        {
            RedoChance = step == "fine flatten" ? 0.1 : 0,
        };
    }

    private static BatchGrades Graded(int number) =>
        new(
            $"B{number}",
            Clarinet.Name,
            null,
            Today.AddMonths(-1),
            Wanted,
            new Dictionary<Strength, int>
            {
                [Wanted.QuartersAway(-2)!.Value] = 1 + (number % 3),
                [Wanted] = 10,
                [Wanted.QuartersAway(2)!.Value] = 1 + (number % 2),
            }
        );
}

using ReedShop.Catalogue;
using ReedShop.Demo;
using ReedShop.Planning;
using ReedShop.Planning.Yields;
using ReedShop.Tests.Workshop;
using ReedShop.Workshop;

namespace ReedShop.Tests.Demo;

public sealed class DemoHistoryFacts
{
    private const ulong Seed = 1;
    private static readonly DateOnly Today = new(2027, 3, 1);

    [Fact]
    public void The_same_seed_and_day_give_the_same_text()
    {
        var (first, again) = (DemoHistory.Of(Seed, Today), DemoHistory.Of(Seed, Today));

        Assert.Equal(first.Steps, again.Steps);
        Assert.Equal(first.Grades, again.Grades);
        Assert.NotEqual(first.Steps, DemoHistory.Of(2, Today).Steps);
    }

    [Fact]
    public async Task It_is_read_without_a_bad_row()
    {
        var (steps, grades) = await Read();

        Assert.Equal(0, steps.Bad.Count + grades.Bad.Count);
        Assert.True(steps.Good.DistinctBy(row => row.Value.Batch).Count() >= 60);
        Assert.Equal(3, steps.Good.DistinctBy(row => row.Value.Model).Count());
        Assert.Equal(6, steps.Good.DistinctBy(row => row.Value.CaneLot).Count());
        Assert.Contains(steps.Good, row => row.Value.Redo > 0);
    }

    [Fact]
    public async Task It_covers_eighteen_months_and_ends_on_the_day_given()
    {
        var days = (await Read()).Steps.Good.Select(row => row.Value.Date).ToArray();

        Assert.InRange(days.Max().DayNumber, Today.DayNumber - 20, Today.DayNumber);
        Assert.InRange(Today.DayNumber - days.Min().DayNumber, 540, 560);
    }

    [Fact]
    public async Task Every_reed_left_after_the_last_step_is_graded()
    {
        var (steps, grades) = await Read();

        Assert.Equal(
            steps.Good.Where(row => row.Value.Step == "grade").Sum(row => row.Value.Out),
            grades.Good.Sum(row => row.Value.Count)
        );
    }

    [Fact]
    public async Task A_batch_comes_out_soft_or_hard_as_a_whole()
    {
        var (steps, grades) = await Read();
        var batches = steps.Good.Select(row => row.Value).DistinctBy(row => row.Batch).ToDictionary(row => row.Batch);
        var lots = grades
            .Good.Select(row => row.Value)
            .GroupBy(row => row.Batch)
            .Select(reeds => (batches[reeds.Key].CaneLot, Quarters: Quarters(reeds, batches[reeds.Key].Aim!.Value)))
            .GroupBy(batch => batch.CaneLot, batch => batch.Quarters)
            .ToArray();

        // Were reeds sorted each by itself, the means of a lot's batches would scatter as its reeds over their number.
        var byChance = lots.Average(lot => lot.Average(batch => Variance(batch) / batch.Length));
        var seen = lots.Average(lot => Variance([.. lot.Select(batch => batch.Average())]));
        Assert.True(seen > 2 * byChance, $"{seen:0.000} and {byChance:0.000}");
    }

    [Fact]
    public async Task The_yields_read_from_it_tell_the_kinder_lot_of_each_model()
    {
        var (steps, _) = await Read();
        var counts = steps.Good.Select(row => Count(row.Value)).ToArray();
        var yields = YieldEstimates.From(new YieldHistory(counts, []), Today, YieldSettings.Default);

        foreach (var ready in ReadyRoutes.All)
        {
            var lots = DemoCane.Of(ready.Model).OrderBy(lot => lot.Kindness).ToArray();
            var (harsh, kind) = (Survive(yields, ready, lots[0]), Survive(yields, ready, lots[1]));
            Assert.True(kind > harsh + 0.1, $"{ready.Model}: {harsh:0.000} and {kind:0.000}");
        }
    }

    /// <summary>How many quarter steps from the aim each reed of a batch came out.</summary>
    private static double[] Quarters(IEnumerable<PastGrade> reeds, Strength aim) =>
        [.. reeds.SelectMany(row => Enumerable.Repeat((double)(row.Strength.Quarters - aim.Quarters), row.Count))];

    private static double Variance(double[] values) =>
        values.Sum(value => Math.Pow(value - values.Average(), 2)) / (values.Length - 1);

    private static double Survive(YieldEstimates yields, ReadyRoute ready, DemoLot lot) =>
        ready
            .Route.CountedSteps(1, ready.Route.Steps.Count)
            .Aggregate(1.0, (share, step) => share * yields.For(ready.Model, lot.Key).Step(step).Mean);

    private static StepCount Count(PastStep step) =>
        new(step.Batch, step.Model, step.CaneLot, step.Date, step.Step, step.In, step.Out, step.Redo);

    private static async Task<(HistoryRows<PastStep> Steps, HistoryRows<PastGrade> Grades)> Read()
    {
        var history = DemoHistory.Of(Seed, Today);
        return (
            (
                await HistoryRows.Steps(
                    new StringReader(history.Steps),
                    ReadyRoutes.All.Select(HistoryRowsFacts.Model),
                    Today
                )
            ).Value,
            (await HistoryRows.Grades(new StringReader(history.Grades))).Value
        );
    }
}

using ReedShop.Lab;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class DriftFacts(ITestOutputHelper output)
{
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void Four_bad_batches_after_twelve_good_ones_are_told_with_their_figures()
    {
        var drift = Assert.IsType<Drift.OfStep>(Assert.Single(Drifts([.. Good(12), .. Last(4, kept: 11)])));
        output.WriteLine($"{drift}");
        Assert.Equal(
            ("clarinet", "flatten", 4, 12, 80, 44),
            (drift.Model, drift.Step, drift.Batches, drift.Before, drift.In, drift.Out)
        );
        Assert.InRange(drift.Expected.Low, 60, 71);
        Assert.InRange(drift.Expected.High, 76, 80);
        Assert.False(drift.IsHigher);
        Assert.True(drift.Chance < 0.005);
    }

    [Fact]
    public void Better_than_before_is_told_too()
    {
        var rows = Batches(12, kept: 10, from: -200).Concat(Last(4, kept: 20)).ToArray();
        Assert.True(Assert.IsType<Drift.OfStep>(Assert.Single(Drifts(rows))).IsHigher);
    }

    [Fact]
    public void One_bad_batch_is_no_drift() => Assert.Empty(Drifts([.. Good(15), .. Last(1, kept: 12)]));

    [Fact]
    public void Batches_as_ever_are_no_drift() => Assert.Empty(Drifts([.. Good(12), .. Last(4, kept: 18)]));

    [Fact]
    public void Batches_that_lost_nothing_ever_are_no_drift() =>
        Assert.Empty(Drifts([.. Batches(12, kept: 20, from: -200), .. Last(4, kept: 20)]));

    [Fact]
    public void One_batch_alone_is_no_drift() => Assert.Empty(Drifts(Last(1, kept: 0)));

    [Fact]
    public void Eleven_batches_are_too_few_to_tell() => Assert.Empty(Drifts([.. Good(7), .. Last(4, kept: 2)]));

    [Fact]
    public void No_history_is_no_drift() => Assert.Empty(Drifts([]));

    [Fact]
    public void A_marker_explains_what_came_after_it()
    {
        var history = new YieldHistory([.. Good(12), .. Last(4, kept: 11)], [])
        {
            Markers = [new YieldMarker(Today.AddDays(-9), "clarinet")],
        };
        Assert.Empty(YieldEstimates.From(history, Today, YieldSettings.Default).Drifts);
    }

    [Fact]
    public void Reeds_that_come_out_softer_than_they_used_to_are_told()
    {
        BatchGrades[] grades =
        [
            .. Enumerable.Range(0, 12).Select(i => Graded(i, Today.AddDays(-200 + i), (i % 3) - 1)),
            .. Enumerable.Range(12, 4).Select(i => Graded(i, Today.AddDays(-20 + i), -5)),
        ];
        var drift = Assert.IsType<Drift.OfStrength>(Assert.Single(Drifts([], grades)));
        output.WriteLine($"{drift}");
        Assert.Equal(-5, drift.Quarters, 1e-12);
        Assert.InRange(drift.Expected.Low, -3, -0.3);
        Assert.InRange(drift.Expected.High, 0.3, 3);
        Assert.Equal((40, 4, 12, false), (drift.Reeds, drift.Batches, drift.Before, drift.IsHigher));
    }

    [Fact]
    public void Reeds_as_ever_are_no_drift() =>
        Assert.Empty(
            Drifts([], [.. Enumerable.Range(0, 16).Select(i => Graded(i, Today.AddDays(-200 + i), (i % 3) - 1))])
        );

    [Fact]
    public void A_bench_that_never_changes_is_warned_of_seldom()
    {
        // Sixty shops of four steps, nothing ever changing: about one false warning in a hundred is meant.
        var random = new Random(3);
        var truth = BetaBinomial.OfBeta(17, 3).Row(20);
        var warned = Enumerable
            .Range(0, 60)
            .Count(_ =>
                Drifts([
                    .. from step in new[] { "flatten", "side", "profile", "clip" }
                    from i in Enumerable.Range(0, 20)
                    select Row(step, i, Draw.Index(truth, random)),
                ]).Count > 0
            );
        Assert.InRange(warned, 0, 3);
    }

    private static IReadOnlyList<Drift> Drifts(StepCount[] rows, BatchGrades[]? grades = null) =>
        YieldEstimates.From(new(rows, grades ?? []), Today, YieldSettings.Default).Drifts;

    private static StepCount[] Good(int batches) => Batches(batches, kept: 18, from: -200);

    private static StepCount[] Last(int batches, int kept) => Batches(batches, kept, from: -9);

    private static StepCount[] Batches(int batches, int kept, int from) =>
        [.. Enumerable.Range(0, batches).Select(i => Row("flatten", from + i, kept))];

    private static StepCount Row(string step, int day, int kept) =>
        new($"{day:0000}", "clarinet", null, Today.AddDays(day), step, 20, kept, 0);

    private static BatchGrades Graded(int number, DateOnly day, int quarters) =>
        new(
            $"B{number}",
            "clarinet",
            null,
            day,
            ThreeAndAHalf,
            new Dictionary<Strength, int> { [ThreeAndAHalf.QuartersAway(quarters)!.Value] = 10 }
        );
}

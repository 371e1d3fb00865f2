using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class MarkerFacts
{
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly DateOnly Lately = Today.AddDays(-10);
    private static readonly DateOnly LongAgo = Today.AddDays(-60);

    [Fact]
    public void After_a_new_blade_the_batches_before_it_count_less()
    {
        var plain = Mean([]);
        var marked = Mean([new YieldMarker(Lately, null)]);
        Assert.InRange(plain, 0.7, 0.82);
        Assert.True(marked > plain + 0.04);
    }

    [Fact]
    public void A_batch_of_the_marked_day_is_already_of_the_new_way() =>
        Assert.Equal(Mean([]), Mean([new YieldMarker(LongAgo, null)]));

    [Fact]
    public void A_marker_of_another_model_changes_nothing_for_this_one() =>
        Assert.Equal(Mean([]), Mean([new YieldMarker(Lately, "saxophone")]), 1e-12);

    [Fact]
    public void A_marker_still_to_come_changes_nothing_yet() =>
        Assert.Equal(Mean([]), Mean([new YieldMarker(Today.AddDays(1), null)]));

    [Fact]
    public void Two_markers_make_old_batches_count_less_twice()
    {
        YieldMarker[] two = [new(Lately, "clarinet"), new(Lately.AddDays(-1), null)];
        var once = new YieldSettings { BeforeMarker = 0.0625 };
        Assert.Equal(Mean([two[0]], once), Mean(two), 1e-12);
    }

    [Fact]
    public void Where_old_batches_count_nothing_only_the_new_ones_speak()
    {
        var fresh = YieldEstimates.From(new(Kept(Lately, 5, 19), []), Today, YieldSettings.Default);
        Assert.Equal(
            fresh.For("clarinet", null).Step("flatten").Mean,
            Mean([new YieldMarker(Lately, null)], new YieldSettings { BeforeMarker = 0 }),
            1e-9
        );
    }

    [Fact]
    public void Grades_before_a_marker_count_less_too()
    {
        var aim = Strength.OfQuarters(14);
        BatchGrades[] grades =
        [
            .. Enumerable.Range(0, 8).Select(i => Graded($"old {i}", LongAgo, aim.QuartersAway(-2)!.Value)),
            .. Enumerable.Range(0, 4).Select(i => Graded($"new {i}", Lately, aim)),
        ];
        Assert.True(Right([new YieldMarker(Lately, null)]) > 1.4 * Right([]));

        double Right(YieldMarker[] markers) =>
            YieldEstimates
                .From(new([], grades) { Markers = markers }, Today, YieldSettings.Default)
                .For("clarinet", null)
                .Grades(aim)
                .Share(new HashSet<Strength> { aim });

        BatchGrades Graded(string batch, DateOnly day, Strength landed) =>
            new(batch, "clarinet", null, day, aim, new Dictionary<Strength, int> { [landed] = 10 });
    }

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1.1)]
    public void A_share_beyond_nought_and_one_is_refused(double share) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new YieldSettings { BeforeMarker = share });

    private static double Mean(YieldMarker[] markers, YieldSettings? settings = null) =>
        YieldEstimates
            .From(
                new([.. Kept(LongAgo, 10, 14), .. Kept(Lately, 5, 19)], []) { Markers = markers },
                Today,
                settings ?? YieldSettings.Default
            )
            .For("clarinet", null)
            .Step("flatten")
            .Mean;

    private static StepCount[] Kept(DateOnly day, int batches, int kept) =>
        [
            .. Enumerable
                .Range(1, batches)
                .Select(i => new StepCount($"{day} {i}", "clarinet", null, day, "flatten", 20, kept, 0)),
        ];
}

using ReedShop.Planning.Routes;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

public sealed class BatchCountsFacts
{
    private static readonly DateOnly Day = new(2027, 3, 1);
    private static readonly SetUp Plate = new("plate", 5);

    private static readonly ReedRoute Route = new([
        new Leg(
            "preparation",
            EndsOnShelf: true,
            [
                new Step("soak", Plate, 30, new Follow.StraightOn(), Check.Counted),
                new Step("flatten", Plate, 90, new Follow.Dry(1, 10, null), Check.Counted, RedoFrom: "soak"),
                new Step("thickness", Plate, 60, new Follow.StraightOn(), Check.Counted, RedoFrom: "soak"),
            ]
        ),
    ]);

    [Fact]
    public void Rockers_that_are_flattened_again_count_once()
    {
        // Twenty blanks: at flattening five rock and go back to the water, two are too thin; of the five one cracks.
        var counts = Count(
            ("B1", 1, 20, 20, 0, 0, null),
            ("B1", 2, 20, 13, 2, 5, null),
            ("B1", 1, 5, 5, 0, 0, 2),
            ("B1", 2, 5, 4, 1, 0, 2)
        );
        Assert.Equal([Row("soak", 20, 20, 0), Row("flatten", 20, 17, 5)], counts);
    }

    [Fact]
    public void Blanks_that_rock_twice_are_counted_as_worked_again_once()
    {
        var counts = Count(("B1", 2, 20, 15, 0, 5, null), ("B1", 2, 5, 3, 0, 2, 2), ("B1", 2, 2, 2, 0, 0, 2));
        Assert.Equal([Row("flatten", 20, 20, 5)], counts);
    }

    [Fact]
    public void Trays_of_one_batch_are_counted_together()
    {
        var counts = Count(("B1", 3, 5, 5, 0, 0, null), ("B1", 3, 5, 3, 1, 1, null), ("B1", 3, 4, 4, 0, 0, null));
        Assert.Equal([Row("thickness", 14, 12, 1)], counts);
    }

    [Fact]
    public void Redone_blanks_are_counted_anew_at_the_steps_they_had_not_reached()
    {
        var counts = Count(("B1", 2, 5, 4, 1, 0, 2), ("B1", 3, 4, 3, 1, 0, 2));
        Assert.Equal([Row("flatten", 0, 4, 0), Row("thickness", 4, 3, 0)], counts);
    }

    [Fact]
    public void Two_batches_are_counted_apart()
    {
        var counts = Count(("B1", 1, 20, 19, 1, 0, null), ("B2", 1, 10, 10, 0, 0, null));
        Assert.Equal([Row("soak", 20, 19, 0), Row("soak", 10, 10, 0) with { Batch = "B2" }], counts);
    }

    [Fact]
    public void A_step_is_as_of_the_day_it_was_worked_last()
    {
        var counts = BatchCounts.Of(
            [
                new("B1", 1, 20, 20, 0, 0, null, Day),
                new("B1", 2, 20, 15, 0, 5, null, Day.AddDays(3)),
                new("B1", 2, 5, 5, 0, 0, 2, Day.AddDays(5)),
            ],
            Route,
            "clarinet",
            "L1"
        );
        Assert.Equal([Day, Day.AddDays(5)], counts.Select(count => count.Day));
    }

    private static IReadOnlyList<StepCount> Count(
        params (string Root, int Step, int In, int Passed, int Rejected, int Redo, int? RedoOf)[] records
    ) =>
        BatchCounts.Of(
            records.Select(r => new BenchRecord(r.Root, r.Step, r.In, r.Passed, r.Rejected, r.Redo, r.RedoOf, Day)),
            Route,
            "clarinet",
            "L1"
        );

    private static StepCount Row(string step, int blanksIn, int blanksOut, int redo) =>
        new("B1", "clarinet", "L1", Day, step, blanksIn, blanksOut, redo);
}

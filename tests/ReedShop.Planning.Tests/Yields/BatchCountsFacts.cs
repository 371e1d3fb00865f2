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
            new("B1", 1, 20, 20, 0, 0, null),
            new("B1", 2, 20, 13, 2, 5, null),
            new("B1", 1, 5, 5, 0, 0, 2),
            new("B1", 2, 5, 4, 1, 0, 2)
        );
        Assert.Equal([Row("soak", 20, 20, 0), Row("flatten", 20, 17, 5)], counts);
    }

    [Fact]
    public void Blanks_that_rock_twice_are_counted_as_worked_again_once()
    {
        var counts = Count(new("B1", 2, 20, 15, 0, 5, null), new("B1", 2, 5, 3, 0, 2, 2), new("B1", 2, 2, 2, 0, 0, 2));
        Assert.Equal([Row("flatten", 20, 20, 5)], counts);
    }

    [Fact]
    public void Trays_of_one_batch_are_counted_together()
    {
        var counts = Count(
            new("B1", 3, 5, 5, 0, 0, null),
            new("B1", 3, 5, 3, 1, 1, null),
            new("B1", 3, 4, 4, 0, 0, null)
        );
        Assert.Equal([Row("thickness", 14, 12, 1)], counts);
    }

    [Fact]
    public void Redone_blanks_are_counted_anew_at_the_steps_they_had_not_reached()
    {
        var counts = Count(new("B1", 2, 5, 4, 1, 0, 2), new("B1", 3, 4, 3, 1, 0, 2));
        Assert.Equal([Row("flatten", 0, 4, 0), Row("thickness", 4, 3, 0)], counts);
    }

    [Fact]
    public void Two_batches_are_counted_apart()
    {
        var counts = Count(new("B1", 1, 20, 19, 1, 0, null), new("B2", 1, 10, 10, 0, 0, null));
        Assert.Equal([Row("soak", 20, 19, 0), Row("soak", 10, 10, 0) with { Batch = "B2" }], counts);
    }

    private static IReadOnlyList<StepCount> Count(params BenchRecord[] records) =>
        BatchCounts.Of(records, Route, "clarinet", "L1", Day);

    private static StepCount Row(string step, int blanksIn, int blanksOut, int redo) =>
        new("B1", "clarinet", "L1", Day, step, blanksIn, blanksOut, redo);
}

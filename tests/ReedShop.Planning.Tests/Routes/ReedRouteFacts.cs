using ReedShop.Planning.Routes;
using Xunit;

namespace ReedShop.Planning.Tests.Routes;

public sealed class ReedRouteFacts
{
    private static readonly SetUp Plate = new("plate", 5);
    private static readonly Follow.Dry Night = new(1, 12, 3);

    /// <summary>1 flatten, 2 rack (a night), 3 level, which sends rockers back to 1, and its night, 4 clip.</summary>
    private static readonly ReedRoute Route = new([
        new Leg(
            "finishing",
            false,
            [
                new Step("flatten", Plate, 60, new Follow.Soak(10)),
                new Step("rack", Plate, 6, Night),
                new Step("level", Plate, 60, Night, Check.Counted, RedoFrom: "flatten"),
                new Step("clip", Plate, 30, new Follow.StraightOn(), Check.Graded),
            ]
        ),
    ]);

    [Theory]
    [InlineData(3, 1)] // They rock by then: as those that fail at the level do, they go back to the flattening.
    [InlineData(4, 1)] // Nothing sends a reed back from the clip, but its night follows the level.
    [InlineData(2, 1)] // Nothing else is said: the step just done and its night.
    public void Blanks_that_lay_too_long_go_back_to_where_they_are_soaked_and_dried(int next, int back) =>
        Assert.Equal(back, Route.RepeatStep(next));
}

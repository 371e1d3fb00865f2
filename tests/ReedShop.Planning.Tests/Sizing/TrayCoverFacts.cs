using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

/// <summary>A step that keeps half and one that keeps four in five; chances worked out by hand.</summary>
public sealed class TrayCoverFacts
{
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly Strength Four = Strength.OfQuarters(16);

    private static readonly YieldEstimate Yields = YieldEstimate.Of(
        new Dictionary<string, StepYield> { ["flatten"] = StepYield.OfShare(0.5), ["clip"] = StepYield.OfShare(0.8) },
        aim => GradeMix.Of([(1, new Dictionary<Strength, double> { [aim] = 1 })])
    );

    /// <summary>Of 2 that are only to be clipped and 1 to be flattened too, 2: .64 x 1 + .32 x .4.</summary>
    [Fact]
    public void Blanks_sent_back_walk_further_than_those_ahead_of_them() =>
        Assert.Equal(0.768, Chance(2, (["clip"], 2), (["flatten", "clip"], 1)), 12);

    [Fact]
    public void Blanks_at_one_place_are_a_batch() =>
        Assert.Equal(BatchSizer.Chances(Yields, ["clip"], null, Need(2), 3)[3], Chance(2, (["clip"], 3)), 12);

    /// <summary>
    /// The lot keeps all at every step or, as likely, half: two of two, one of them to be flattened first, come out with
    /// half of 1 and half of .5 x .25, more than .75 x .625 if they were strangers.
    /// </summary>
    [Fact]
    public void The_lot_is_shared_by_all_its_blanks()
    {
        var allOrHalf = new StepYield([0.5, 0.5], [StepYield.OfShare(1).Nodes[0], StepYield.OfShare(0.5).Nodes[0]]);
        var shared = YieldEstimate.Of(
            new Dictionary<string, StepYield> { ["flatten"] = allOrHalf, ["clip"] = allOrHalf }
        );
        var both = TrayCover.Chance(
            shared,
            [new WaitingBlanks(["clip"], 1), new WaitingBlanks(["flatten", "clip"], 1)],
            null,
            Need(2)
        );
        Assert.Equal(0.5625, both, 12);
    }

    /// <summary>Two toward 3 and one toward 4, all to be clipped; both strengths serve, two are wanted: .64 + .32 x .8.</summary>
    [Fact]
    public void Blanks_of_two_aims_serve_a_line_that_takes_both()
    {
        var route = new ReedRoute([
            new Leg(
                "finishing",
                false,
                [
                    new Step("flatten", new SetUp("plate", 5), 60, new Follow.Dry(1, 12, null), Check.Counted),
                    new Step("clip", new SetUp("clip", 5), 60, new Follow.StraightOn(), Check.Counted),
                ]
            ),
        ]);
        var cover = LineCover.Of(
            new ModelSupply(route, _ => Yields, [], []),
            new HashSet<Strength> { Three, Four },
            [new AliveBlanks(Three, "L", 2, 2), new AliveBlanks(Four, "L", 2, 1)],
            count: 2
        );
        Assert.Equal(0.896, cover, 12);
    }

    private static double Chance(int wanted, params (string[] Steps, int Blanks)[] places) =>
        TrayCover.Chance(
            Yields,
            [.. places.Select(place => new WaitingBlanks(place.Steps, place.Blanks))],
            null,
            Need(wanted)
        );

    private static GradeNeed Need(int reeds) => GradeNeed.Any(new HashSet<Strength> { Three }, reeds);
}

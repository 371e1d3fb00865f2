using ReedShop.Catalogue;
using ReedShop.Planning.Routes;

namespace ReedShop.Tests.Catalogue;

public sealed class ReadyRoutesFacts
{
    public static TheoryData<ReadyRoute> All => [.. ReadyRoutes.All];

    [Theory]
    [MemberData(nameof(All))]
    public void A_ready_route_passes_the_door_every_route_passes(ReadyRoute ready)
    {
        var parsed = RouteShape.Parse(RouteShape.Of(ready.Route));

        Assert.False(parsed.IsRefused, parsed.Refusal?.Detail);
        Assert.Equal(RouteShape.Of(ready.Route), RouteShape.Of(parsed.Value), new ShapeComparer());
    }

    /// <summary>Sanded, soaked and dried overnight twice: ready on the third day. Common practice, no source.</summary>
    [Theory]
    [MemberData(nameof(All))]
    public void A_tray_sanded_soaked_and_dried_twice_is_ready_on_its_third_day(ReadyRoute ready)
    {
        var preparation = ready.Route.Sittings(1, ready.Route.FirstFinishingStep - 1);

        Assert.Equal(2, preparation.Count);
        Assert.All(preparation, sitting => Assert.Contains(sitting.Steps, step => step.Then is Follow.Soak));
        Assert.Equal(3, preparation.Aggregate(1, (day, sitting) => day + sitting.NightsAfter));
    }

    [Theory]
    [MemberData(nameof(All))]
    public void A_blank_that_rocks_goes_back_to_the_coarse_plate(ReadyRoute ready)
    {
        var flatten = ready.Route.NumberOf("fine flatten")!.Value;

        Assert.Equal(1, ready.Route.RedoStep(flatten));
        Assert.Equal("coarse plate", ready.Route[1].SetUp.Key);
    }

    [Theory]
    [MemberData(nameof(All))]
    public void Every_drying_lasts_twelve_hours_and_every_step_warns_of_what_it_does(ReadyRoute ready)
    {
        Assert.All(
            ready.Route.Steps.Select(step => step.Then).OfType<Follow.Dry>(),
            dry => Assert.Equal(12, dry.LeastHours)
        );
        Assert.All(ready.Route.Steps, step => Assert.False(string.IsNullOrEmpty(step.Caution)));
    }

    [Fact]
    public void A_bass_reed_takes_longer_than_a_clarinet_reed() =>
        Assert.True(Seconds(ReadyRoutes.BassClarinet) > Seconds(ReadyRoutes.Clarinet));

    private static int Seconds(ReadyRoute ready) => ready.Route.Steps.Sum(step => step.SecondsPerBlank);

    private sealed class ShapeComparer : IEqualityComparer<IReadOnlyList<LegShape>>
    {
        public bool Equals(IReadOnlyList<LegShape>? x, IReadOnlyList<LegShape>? y) =>
            x!.SelectMany(leg => leg.Steps).SequenceEqual(y!.SelectMany(leg => leg.Steps))
            && x!
                .Select(leg => (leg.Name, leg.EndsOnShelf))
                .SequenceEqual(y!.Select(leg => (leg.Name, leg.EndsOnShelf)));

        public int GetHashCode(IReadOnlyList<LegShape> obj) => obj.Count;
    }
}

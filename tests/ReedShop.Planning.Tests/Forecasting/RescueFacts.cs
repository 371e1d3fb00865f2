using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>What helps a promise, against chances that have a closed form.</summary>
public sealed class RescueFacts
{
    /// <summary>Four standard errors of a share of 400 draws.</summary>
    private const double Sampling = 0.1;

    private static readonly Strength Softer = Strength.OfQuarters(11);

    /// <summary>
    /// Ten reeds of ten blanks that survive with .9 each: enough in 35 of 100. An extra batch that waits until they are
    /// counted is a day too late; one that is started tomorrow is not.
    /// </summary>
    [Fact]
    public void An_extra_batch_now_is_in_time_where_one_for_what_is_missing_is_not()
    {
        var shop = new SmallShop
        {
            Finish = StepYield.OfShare(0.9),
            Cane = 100,
            Orders = [(10, 3)],
        }.State();

        var extra = Rescued(shop).OfType<Rescue.MadeElsewhere>().Single();

        Assert.Equal(Math.Pow(0.9, 10), Forecast.Of(shop, 400, cancel: Cancel).Of("order 1").Chance, Sampling);
        Assert.Equal("A", extra.Root);
        Assert.InRange(extra.Reeds.Quantity, 2, 10);
        Assert.InRange(extra.Chance, 0.85, 1);
    }

    /// <summary>Two evenings that are not lost are wanted of two, .8^2; the third has no minutes left, and an hour more there makes it two of three, .896.</summary>
    [Fact]
    public void A_longer_evening_makes_up_for_a_lost_one()
    {
        var shop = new SmallShop
        {
            Orders = [(10, 3)],
            Hazards = BenchHazards.OnlyDamp(0) with { LostEvening = 0.2 },
        }.State();
        int[] minutes = [60, 60, 0, .. Enumerable.Repeat(60, 97)];
        var closed = shop with { Work = shop.Work with { OpenMinutes = minutes } };

        var longer = Rescued(closed).OfType<Rescue.LongerDay>().First();

        Assert.Equal((2, 60), (longer.Day, longer.Minutes));
        Assert.Equal(0.896, longer.Chance, Sampling);
    }

    /// <summary>Four reeds a quarter softer, each of which comes up with chance .6: two at least in 1 - .4^4 - 4 x .6 x .4^3.</summary>
    [Fact]
    public void Four_clipped_reeds_give_two_in_82_of_100()
    {
        var shop = new SmallShop().State();
        var owed = shop with
        {
            Work = shop.Work with { Batches = [] },
            Plan = Scheduling.Given.Plan(),
            Trays = [],
            DrawerFree = new Dictionary<(string, Strength), int> { [("clarinet", Softer)] = 4 },
            Promises = [new OpenPromise("order 1", SmallShop.Monday.AddDays(2), [Peg(null, 2)])],
        };

        var clip = Rescued(owed).OfType<Rescue.Clip>().Single();

        Assert.Equal((2, 4), (clip.Missing, clip.Clipped));
        Assert.Equal(0.8208, clip.Enough, 12);
        Assert.Equal(0.8208, clip.Chance, 12);
        Assert.Equal(1, Rescued(owed).OfType<Rescue.OtherStrength>().Single(other => other.Also == Softer).Chance);
    }

    /// <summary>Three free reeds make up for what either of two batches lacks, until they are set aside for one order.</summary>
    [Fact]
    public void What_costs_another_promise_says_so()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9), Orders = [(10, 2)] }.State();
        var two = shop with
        {
            Work = shop.Work with { Batches = [.. shop.Work.Batches, shop.Work.Batches[0] with { Id = "B" }] },
            Plan = Scheduling.Given.Plan(("A", [0, 1]), ("B", [0, 1])),
            Trays = [.. shop.Trays, shop.Trays[0] with { Id = "B", Root = "B" }],
            DrawerFree = new Dictionary<(string, Strength), int> { [("clarinet", SmallShop.Three)] = 3 },
            Promises =
            [
                new OpenPromise("order 1", SmallShop.Monday.AddDays(2), [Peg("A", 10)]),
                new OpenPromise("order 2", SmallShop.Monday.AddDays(2), [Peg("B", 10)]),
            ],
        };

        var aside = Rescue(two, "order 2").OfType<Rescue.MadeElsewhere>().Single();
        var lowered = aside.Lowers.Single();

        Assert.Equal("order 1", lowered.Order);
        Assert.True(lowered.To < lowered.From - 0.02, $"{lowered.From} to {lowered.To}");
    }

    [Fact]
    public void A_promise_is_at_risk_below_what_was_told_and_below_the_level()
    {
        Assert.True(PromiseWatch.IsAtRisk(0.6, stated: 0.9, level: 0.75));
        Assert.False(PromiseWatch.IsAtRisk(0.8, stated: 0.9, level: 0.75));
        Assert.False(PromiseWatch.IsAtRisk(0.54, stated: 0.55, level: 0.75));
        Assert.True(PromiseWatch.IsAtRisk(0.6, stated: 0, level: 0.75));
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    private static IReadOnlyList<Rescue> Rescued(ShopState shop) => Rescue(shop, "order 1");

    private static IReadOnlyList<Rescue> Rescue(ShopState shop, string order) => Rescues.For(shop, order, Cancel);

    private static PeggedReeds Peg(string? root, int reeds) => new(root, "clarinet", [SmallShop.Three], reeds);
}

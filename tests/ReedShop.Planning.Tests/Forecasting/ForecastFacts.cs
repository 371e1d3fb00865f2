using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;
using Xunit;
using Binomial = MathNet.Numerics.Distributions.Binomial;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>Forecasts against chances that have a closed form.</summary>
public sealed class ForecastFacts
{
    private const int Draws = 20_000;

    /// <summary>Four standard errors of a share of so many draws are at most this.</summary>
    private const double Sampling = 0.0142;

    /// <summary>56/57, .905599 and .676781: computed independently, from a beta-binomial law of 18 blanks.</summary>
    [Fact]
    public void Orders_on_one_batch_are_served_by_promised_day()
    {
        var shop = new SmallShop
        {
            Blanks = 18,
            Finish = StepYield.OfBeta(8, 2),
            Orders = [(8, 2), (3, 3), (3, 4)],
        };

        var outlook = Drawn(shop.State());

        Assert.Equal(56 / 57.0, outlook.Of("order 1").Chance, Sampling);
        Assert.Equal(0.905599, outlook.Of("order 2").Chance, Sampling);
        Assert.Equal(0.676781, outlook.Of("order 3").Chance, Sampling);
    }

    /// <summary>Nights repeated until dry are negative binomial: two needed, two spare, .7^2 (1 + 2 x .3 + 3 x .09).</summary>
    [Fact]
    public void Damp_nights_without_memory_put_the_finish_off_by_a_negative_binomial_number()
    {
        var shop = new SmallShop
        {
            Nights = 2,
            Days = [0, 2],
            Hazards = BenchHazards.OnlyDamp(0.3),
        };

        var promise = Drawn(shop.State()).Of("order 1");

        Assert.Equal(0.49, promise.ChanceBy(SmallShop.Monday.AddDays(3)), Sampling);
        Assert.Equal(0.49 * 1.87, promise.ChanceBy(SmallShop.Monday.AddDays(5)), Sampling);
    }

    /// <summary>Both sittings wait for an evening that is not lost: .8^2, then .8^2 x (1 + 2 x .2).</summary>
    [Fact]
    public void A_lost_evening_puts_a_sitting_off_by_a_day()
    {
        var shop = new SmallShop { Hazards = BenchHazards.OnlyDamp(0) with { LostEvening = 0.2 } };

        var promise = Drawn(shop.State()).Of("order 1");

        Assert.Equal(0.64, promise.ChanceBy(SmallShop.Monday.AddDays(2)), Sampling);
        Assert.Equal(0.64 * 1.4, promise.ChanceBy(SmallShop.Monday.AddDays(3)), Sampling);
    }

    /// <summary>10 blanks and a minute each, with five to set up, take 15 minutes and more: not in a tenth of an hour.</summary>
    [Fact]
    public void A_slow_evening_has_no_room_for_a_long_sitting()
    {
        var shop = new SmallShop { Hazards = BenchHazards.OnlyDamp(0) with { SlowEvening = 0.2, SlowShare = 0.1 } };

        var promise = Drawn(shop.State()).Of("order 1");

        Assert.Equal(0.64, promise.ChanceBy(SmallShop.Monday.AddDays(2)), Sampling);
    }

    /// <summary>
    /// Ten blanks for ten reeds, each of which survives with chance .9. What is missing is made again: the extra batch
    /// starts the evening after, and is flattened, dried and finished in two evenings.
    /// </summary>
    [Fact]
    public void Missing_reeds_are_made_by_an_extra_batch()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9), Cane = 100 };
        var enough = Math.Pow(0.9, 10);

        var promise = Drawn(shop.State()).Of("order 1");

        Assert.Equal(enough, promise.ChanceBy(SmallShop.Monday.AddDays(3)), Sampling);
        Assert.InRange(promise.ChanceBy(SmallShop.Monday.AddDays(4)), 0.9, 0.999);
        Assert.Equal((LateCause.Short, 1), promise.Causes.Single());
    }

    /// <summary>
    /// Five reeds lie free in the drawer while ten of ten must come out: they make up for what is missing, unless a buyer
    /// comes first. Orders come every two days at random, so that nobody has taken them on day 1 with chance e^(-1/2).
    /// </summary>
    [Fact]
    public void Free_reeds_make_up_for_what_is_missing_unless_a_buyer_took_them()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9) }.State();
        var drawer = new Dictionary<(string, Strength), int> { [("clarinet", SmallShop.Three)] = 10 };
        var quiet = shop with { DrawerFree = drawer };
        var busy = quiet with { Ordered = Orders(reeds: 10) };
        var enough = Math.Pow(0.9, 10);

        Assert.Equal(1, Drawn(quiet).Of("order 1").Chance);
        Assert.Equal(enough + ((1 - enough) * Math.Exp(-0.5)), Drawn(busy).Of("order 1").Chance, Sampling);
    }

    /// <summary>
    /// Each order takes four of the ten: the first leaves six, the second two, the third none. So many of ten are missing
    /// by the binomial law, and so many orders come in a day by Poisson's with mean 1/2.
    /// </summary>
    [Fact]
    public void A_buyer_takes_no_more_free_reeds_than_were_ordered()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9) }.State() with
        {
            DrawerFree = new Dictionary<(string, Strength), int> { [("clarinet", SmallShop.Three)] = 10 },
            Ordered = Orders(reeds: 4),
        };
        var enough =
            Math.Exp(-0.5)
            * (
                1 + (0.5 * AtMostMissing(6)) + (0.125 * AtMostMissing(2)) + ((Math.Exp(0.5) - 1.625) * AtMostMissing(0))
            );

        Assert.Equal(enough, Drawn(shop).Of("order 1").Chance, Sampling);
        Assert.InRange(enough, 0.95, 1);

        static double AtMostMissing(int reeds) => Binomial.CDF(0.1, 10, reeds);
    }

    /// <summary>Every two days.</summary>
    private static Dictionary<(string, Strength), ReedsOrdered> Orders(int reeds) =>
        new() { [("clarinet", SmallShop.Three)] = new ReedsOrdered(0.5, reeds) };

    [Fact]
    public void Without_cane_missing_reeds_never_come()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9) };

        var promise = Drawn(shop.State()).Of("order 1");

        Assert.Equal(Math.Pow(0.9, 10), promise.ChanceBy(SmallShop.Monday.AddDays(90)), Sampling);
        Assert.Null(promise.ShipDayFor(0.9));
    }

    /// <summary>
    /// Two nights needed and none to spare, one evening of two lost with .2: of the draws that miss the day, those that
    /// would be in time with dry nights lost no evening. 1 - .7^2 x .64 = .6864 are late, .64 - .3136 of them for damp alone.
    /// </summary>
    [Fact]
    public void Damp_nights_are_told_from_lost_evenings()
    {
        var shop = new SmallShop
        {
            Nights = 2,
            Days = [0, 2],
            Orders = [(10, 3)],
            Hazards = BenchHazards.OnlyDamp(0.3) with { LostEvening = 0.2 },
        };

        var outlook = Forecast.Of(shop.State(), Draws, causes: true, cancel: TestContext.Current.CancellationToken);
        var causes = outlook.Of("order 1").Causes.ToDictionary(cause => cause.Cause, cause => cause.Share);

        Assert.Equal((0.64 - 0.3136) / 0.6864, causes[LateCause.DampNights], Sampling);
        Assert.Equal(0.36 / 0.6864, causes[LateCause.Evenings], Sampling);
    }

    [Fact]
    public void What_nothing_can_be_made_of_is_late_for_want_of_cane()
    {
        var shop = new SmallShop { Finish = StepYield.OfShare(0.9) };

        Assert.Equal((LateCause.Cane, 1), Drawn(shop.State()).Of("order 1").Causes.Single());
    }

    /// <summary>Each blank is worked again with chance .05: nothing is lost by it, and one in 1 - .95^10 orders waits for it.</summary>
    [Fact]
    public void Blanks_worked_again_come_two_evenings_later()
    {
        var again = new SmallShop { Finish = Redone(0.05) };

        var promise = Drawn(again.State()).Of("order 1");

        Assert.Equal(Math.Pow(0.95, 10), promise.ChanceBy(SmallShop.Monday.AddDays(3)), Sampling);
        Assert.Equal(1, promise.ChanceBy(SmallShop.Monday.AddDays(4)));
    }

    /// <summary>A night more than the blanks may lie: they are soaked, flattened and dried once more.</summary>
    [Fact]
    public void Blanks_that_lie_too_long_are_soaked_again()
    {
        var shop = new SmallShop { MostNights = 1 }.State();
        var lain = shop with
        {
            Trays = [shop.Trays[0] with { NextStep = 2, Sittings = [.. shop.Trays[0].Sittings.Skip(1)] }],
            Work = shop.Work with
            {
                Batches =
                [
                    shop.Work.Batches[0] with
                    {
                        Sittings = [.. shop.Work.Batches[0].Sittings.Skip(1)],
                        OnRack = true,
                        LatestStart = 0,
                    },
                ],
            },
            Plan = new(new Dictionary<string, int[]> { ["A"] = [0] }),
            Hazards = BenchHazards.OnlyDamp(0) with { LostEvening = 0.2 },
        };

        var promise = Drawn(lain).Of("order 1");

        Assert.Equal(0.8, promise.ChanceBy(SmallShop.Monday.AddDays(1)), Sampling);
        Assert.Equal(0.8, promise.ChanceBy(SmallShop.Monday.AddDays(2)), Sampling);
        Assert.Equal(0.8 + (0.2 * 0.64), promise.ChanceBy(SmallShop.Monday.AddDays(3)), Sampling);
    }

    [Fact]
    public void A_draw_is_the_same_however_many_others_there_are()
    {
        var state = new SmallShop
        {
            Finish = StepYield.OfBeta(8, 2),
            Blanks = 13,
            Cane = 50,
        }.State();

        var whole = Drawn(state, 400).Of("order 1").Chance;
        var halves = new[] { 0, 200 }.Average(first => Drawn(state, 200, first).Of("order 1").Chance);

        Assert.Equal(whole, halves, 12);
        Assert.NotEqual(whole, Drawn(state, 400, 400).Of("order 1").Chance);
    }

    [Fact]
    public void The_day_for_a_chance_is_the_first_that_has_it()
    {
        var shop = new SmallShop { Hazards = BenchHazards.OnlyDamp(0.3) };

        var promise = Drawn(shop.State()).Of("order 1");
        var day = promise.ShipDayFor(0.9)!.Value;

        Assert.True(promise.ChanceBy(day) >= 0.9);
        Assert.True(promise.ChanceBy(day.AddDays(-1)) < 0.9);
    }

    private static ShopOutlook Drawn(ShopState state, int draws = Draws, int first = 0) =>
        Forecast.Of(state, draws, first, cancel: TestContext.Current.CancellationToken);

    private static StepYield Redone(double chance) =>
        new([1], [new SurvivalMix([(1, new BetaBinomial(1, 0))])]) { RedoChance = chance };
}

using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>Five reeds are asked for, and go through draws of the shop that were made before they were.</summary>
public sealed class StandingDrawsFacts
{
    private const double Sampling = 0.05;

    /// <summary>
    /// The batch that stands fills the next two evenings, and one evening in five is lost. The five reeds are planned for
    /// evenings 3 and 4: they are done by then if none of the four is lost, .8^4 = .4096, for what is pushed off its evening
    /// comes before them. By evening 5 one of five may be lost: .8^4 (1 + 4 x .2) = .7373.
    /// </summary>
    [Fact]
    public void What_was_pushed_off_its_evening_comes_before_the_order_that_asks()
    {
        var shop = new SmallShop
        {
            Cane = 5,
            Blanks = 55,
            Days = [1, 2],
            Orders = [(55, 50)],
            Hazards = BenchHazards.OnlyDamp(0) with { LostEvening = 0.2 },
        }.State();

        var bold = Asked(shop, 0.3);
        var surer = Asked(shop, 0.6);

        Assert.Equal(SmallShop.Monday.AddDays(5), bold.ShipBy);
        Assert.Equal(0.4096, bold.Chance, Sampling);
        Assert.Equal(SmallShop.Monday.AddDays(6), surer.ShipBy);
        Assert.Equal(0.7373, surer.Chance, Sampling);
    }

    /// <summary>
    /// Five blanks of which each survives with .9 give five reeds in .59 of the draws, and there is no cane for more. The
    /// batch that stands owes five of its ten: what it makes beyond serves whoever is short.
    /// </summary>
    [Fact]
    public void Reeds_that_others_free_serve_the_order_that_asks()
    {
        var shop = new SmallShop
        {
            Cane = 5,
            Days = [1, 2],
            Finish = StepYield.OfShare(0.9),
            Orders = [(5, 50)],
        };

        Assert.InRange(Asked(shop.State(), 0.5).Chance, 0.95, 1);
    }

    private static Promise Asked(ShopState shop, double confidence) =>
        ForecastPromiser
            .PromiseAmongStanding(
                shop,
                new PromiseRequest([new PromiseLine("clarinet", SmallShop.Three, 5)], confidence, 0),
                fresh: true
            )
            .Promise!;
}

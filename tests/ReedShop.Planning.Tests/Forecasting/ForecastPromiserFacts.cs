using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Forecasting;

/// <summary>Five more reeds are asked for beside a batch that takes two whole evenings.</summary>
public sealed class ForecastPromiserFacts
{
    private static readonly PromiseRequest FiveReeds = new([new PromiseLine("clarinet", SmallShop.Three, 5)], 0.9, 0);

    /// <summary>No luck at all: flattened tomorrow, finished the day after, and out the day after that.</summary>
    [Fact]
    public void Where_nothing_can_go_wrong_the_draws_agree_with_the_closed_form()
    {
        var shop = Empty(new SmallShop { Cane = 50 });

        var promise = ForecastPromiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(SmallShop.Monday.AddDays(3), promise.ShipBy);
        Assert.Equal((5, DueDay.MostChance), (promise.Blanks, promise.Chance));
    }

    /// <summary>Each of two sittings waits for an evening that is not lost; with .2 lost, .8^2 (1 + 2 x .2 + 3 x .04) = .9728.</summary>
    [Fact]
    public void The_day_is_the_first_whose_chance_is_enough()
    {
        var lossy = BenchHazards.OnlyDamp(0) with { LostEvening = 0.2 };
        var shop = Empty(new SmallShop { Cane = 50, Hazards = lossy });

        var promise = ForecastPromiser.Promise(shop, FiveReeds).Promise!;

        Assert.Equal(SmallShop.Monday.AddDays(5), promise.ShipBy);
        Assert.Equal(0.9728, promise.Chance, 0.03);
    }

    /// <summary>
    /// Where every number of blanks leaves one batch in three without a reed, an extra batch can still do it. With one it is
    /// 8 of 9, which 700 draws do not take for .93, and with a second 26 of 27.
    /// </summary>
    [Fact]
    public void Where_no_number_of_blanks_is_enough_an_extra_batch_makes_a_later_day_possible()
    {
        var all = new BetaBinomial(1, 0);
        var none = new BetaBinomial(0, 0);
        var fickle = new StepYield([1], [new SurvivalMix([(2, all), (1, none)])]);
        var shop = Empty(new SmallShop { Cane = 50, Finish = fickle });
        var request = FiveReeds with { Confidence = 0.93 };

        Assert.Equal(NoPromiseReason.TooLittleCane, Promiser.Promise(shop, request).Reason);
        var promise = ForecastPromiser.Promise(shop, request).Promise!;

        // One batch in three fails, one in nine twice running, one in twenty-seven three times.
        Assert.Equal(1 - (1 / 27.0), promise.Chance, 0.03);
        Assert.True(promise.ShipBy > SmallShop.Monday.AddDays(5));
    }

    [Fact]
    public void The_same_question_gets_the_same_answer_and_what_was_told_can_be_ordered()
    {
        var shop = new SmallShop
        {
            Cane = 50,
            Finish = StepYield.OfBeta(18, 2),
            Days = [1, 2],
            Orders = [(10, 9)],
        }.State();

        var told = ForecastPromiser.Promise(shop, FiveReeds).Promise!;
        var ordered = ForecastPromiser.PromiseBy(shop, FiveReeds, told.ShipBy).Promise!;

        Assert.Equal((told.ShipBy, told.Chance, told.Blanks), (ordered.ShipBy, ordered.Chance, ordered.Blanks));
    }

    /// <summary>
    /// The other batch fills two whole evenings, and its due day would let it wait for two more. Where one evening in three
    /// is lost it needs them: on evenings 1 and 2 it is ready in time if two of four are not lost, .892; with its second
    /// sitting on evening 3, .843. So it makes no way, and the five reeds wait.
    /// </summary>
    [Fact]
    public void Nobody_makes_way_at_the_price_of_the_own_promise()
    {
        var whole = new SmallShop
        {
            Cane = 50,
            Blanks = 55,
            Days = [1, 2],
            Orders = [(55, 5)],
        }.State();
        var late = whole with { Work = whole.Work with { Batches = [whole.Work.Batches[0] with { DueDay = 4 }] } };
        var lossy = late with { Hazards = BenchHazards.OnlyDamp(0) with { LostEvening = 0.33 } };

        Assert.NotEmpty(ForecastPromiser.Promise(late, FiveReeds).Promise!.Moved.Days);
        Assert.Empty(ForecastPromiser.Promise(lossy, FiveReeds).Promise!.Moved.Days);
    }

    private static ShopState Empty(SmallShop shop)
    {
        var state = shop.State();
        return state with
        {
            Work = state.Work with { Batches = [] },
            Plan = Scheduling.Given.Plan(),
            Trays = [],
            Promises = [],
        };
    }
}

using ReedShop.Planning;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using ReedShop.Platform.Http;

namespace ReedShop.Insight;

/// <summary>The table a maker chooses a size from, with what speaks for and against each.</summary>
internal sealed class SizingTable
{
    private const double LeastReedsShown = 0.05;

    private readonly SizedModel shop;
    private readonly SizingWish wish;
    private readonly Strength aim;
    private readonly GradeMix grades;
    private readonly double[] chances;
    private readonly double goodOfOne;
    private readonly RunPrices prices;
    private readonly RunPolicy policy;
    private readonly int usualMinutes;
    private readonly LimitView[] limits;

    public SizingTable(SizedModel shop, SizingWish wish, int mostBlanks)
    {
        this.shop = shop;
        this.wish = wish;
        aim = wish.Aim ?? wish.Strength;
        var yields = shop.Yields(wish.From);
        var steps = shop.CountedSteps(wish.From);
        var need = GradeNeed.Of(wish.Strength, wish.Quantity);
        grades = yields.Grades(aim);
        chances = BatchSizer.Chances(yields, steps, grades, need, mostBlanks);
        goodOfOne = BatchSizer.ExpectedGood(yields, steps, grades, need, 1);
        prices = Costs.Of(shop.Model.Route, FirstStep);
        policy = new RunPolicy(
            BatchSizer.GoodReeds(yields, steps, grades, need.Accepted, mostBlanks),
            prices,
            wish.Runs,
            wish.Quantity
        );
        usualMinutes = shop.Shop.Bench.UsualMinutes(shop.State.Today);
        limits = [.. Limits(mostBlanks).OrderBy(limit => limit.Blanks)];
    }

    private int FirstStep => shop.FirstStep(wish.From);

    private RunCosts Costs =>
        new(
            shop.Shop.Costs.Blank,
            shop.Shop.Costs.BenchHour,
            shop.Shop.Costs.LateDay,
            shop.Shop.Costs.SurplusShare * shop.Model.PriceMinor
        );

    public SizingView View()
    {
        var yields = shop.Yields(wish.From);
        var blanks = BatchSizer.Smallest(chances, wish.Confidence);
        var aims = AimChoice.AimsFor(yields, wish.Strength, shop.QuartersBetweenGrades);
        return new SizingView(
            blanks,
            blanks is { } enough ? chances[enough] : null,
            blanks * goodOfOne,
            [.. Enumerable.Range(wish.Quantity, chances.Length - wish.Quantity).Select(Row)],
            blanks is { } started ? [.. Expected(yields, started)] : [],
            aim,
            AimChoice.AimFor(yields, wish.Strength, shop.QuartersBetweenGrades).Aim,
            [.. aims.Select(share => new AimShareView(share.Aim, share.Share, share.Batches))],
            wish.From,
            grades.Batches,
            policy[wish.Runs, wish.Quantity] is { Blanks: { } cheapest } choice
                ? new CheapestView(cheapest, Amount(choice.Cost), chances[cheapest])
                : null,
            new RunPricesView(
                Amount(prices.SetUp),
                Amount(prices.Blank),
                Amount(prices.LateRun),
                Amount(prices.Surplus(1))
            ),
            limits
        );
    }

    private SizingRow Row(int blanks)
    {
        var work = RunWork.Of(shop.Model.Route, FirstStep, blanks, usualMinutes);
        var cost = policy.CostOf(wish.Runs, wish.Quantity, blanks);
        return new SizingRow(
            blanks,
            chances[blanks],
            blanks * goodOfOne,
            double.IsFinite(cost) ? Amount(cost) : null,
            work.Evenings,
            work.Minutes,
            limits.FirstOrDefault(limit => blanks > limit.Blanks)?.Limit
        );
    }

    private IEnumerable<ExpectedView> Expected(YieldEstimate yields, int blanks)
    {
        var kept = blanks * yields.Along(shop.CountedSteps(wish.From)).Mean;
        return grades
            .Shares.Select(share => new ExpectedView(share.Strength, kept * share.Share))
            .Where(expected => expected.Reeds >= LeastReedsShown);
    }

    private IEnumerable<LimitView> Limits(int mostBlanks)
    {
        yield return new(SizingLimit.Batch, shop.Shop.MostBlanksPerBatch);
        yield return new(SizingLimit.Rack, shop.Shop.RackBlanks);
        yield return new(
            SizingLimit.Evening,
            RunWork.MostAtOnce(shop.Model.Route, FirstStep, usualMinutes, mostBlanks)
        );
        yield return wish.From == BlanksFrom.Shelf
            ? new(SizingLimit.Shelf, shop.Supply.Shelf.Sum(rested => rested.Blanks))
            : new(SizingLimit.Cane, shop.Supply.Cane.Sum(lot => lot.Blanks));
    }

    private Money Amount(double minor) => new((long)Math.Round(minor), shop.Shop.Currency);
}

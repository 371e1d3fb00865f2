using ReedShop.Lab.Trials;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

public sealed class ShockSpanFacts
{
    private const int ShockDay = 365;

    [Fact]
    public void The_lowest_month_and_the_way_back_are_told()
    {
        var words = Words([(200, 180), (200, 120), (200, 150), (200, 178), (200, 160), (200, 180)]);
        Assert.StartsWith("lowest beside the run without it: month 2, 30.0 points", words[0], StringComparison.Ordinal);
        Assert.Equal("back within 2 points in month 4, but not in month 5", words[1]);
        Assert.Equal(2, words.Length);
    }

    [Fact]
    public void What_never_comes_back_is_said_not_to() =>
        Assert.Equal(
            "not back within 2 points in any telling month after it",
            Words([(200, 180), (200, 120), (200, 150)])[1]
        );

    [Fact]
    public void A_month_of_few_promises_is_named_and_passed_over()
    {
        var words = Words([(200, 180), (40, 4), (200, 150), (49, 44), (200, 180)]);
        Assert.Contains("month 3, 15.0 points", words[0], StringComparison.Ordinal);
        Assert.StartsWith("back within 2 points in month 5", words[1], StringComparison.Ordinal);
        Assert.EndsWith("passed over: month 2, 4", words[2], StringComparison.Ordinal);
    }

    [Fact]
    public void A_promise_counts_in_the_month_of_its_promised_day()
    {
        TrialResult[] shop =
        [
            Result([Promised(ShockDay - 20, 25), Promised(ShockDay + 29, 1), Promised(ShockDay - 2, 1)]),
        ];
        var months = ShockSpan.Of(Plan(months: 2), new Shock(ShockKind.Cane, ShockDay), SpanKind.Month, shop, shop);
        Assert.Equal([1, 1], months.Select(month => month.Promises.Length));
    }

    /// <summary>Of 200 promises a month 180 are kept without the shock.</summary>
    private static string[] Words((int Promises, int Kept)[] months)
    {
        var plan = Plan(months.Length);
        var shops = Result([
            .. months.Index().SelectMany(month => Month(month.Index, month.Item.Promises, month.Item.Kept)),
        ]);
        var without = Result([.. months.Index().SelectMany(month => Month(month.Index, 200, 180))]);
        return
        [
            .. ShockWords.Of(
                ShockSpan.Of(plan, new Shock(ShockKind.Cane, ShockDay), SpanKind.Month, [shops], [without])
            ),
        ];
    }

    private static TrialPlan Plan(int months) =>
        new(Shops: 1, Years: 2, Seed: 1, AlwaysAccepted: false)
        {
            MostDays = ShockDay + (months * SpanKind.Month.Days),
        };

    private static IEnumerable<TrialPromise> Month(int number, int promises, int kept) =>
        Enumerable
            .Range(0, promises)
            .Select(one => Promised(ShockDay + (number * SpanKind.Month.Days), 10) with { Kept = one < kept });

    private static TrialPromise Promised(int orderedOn, int days) =>
        new(orderedOn, 0.9, 0.9, Kept: true, days, days, 0, 0.5, CameUpShort: false, IsFromDrawer: false);

    private static TrialResult Result(TrialPromise[] promises) => new(promises, [], 0, 0, 0, 0, [], []);
}

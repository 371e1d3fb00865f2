using ReedShop.Lab.Trials;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

/// <summary>Invented shops: what can be asserted of them that is no noise.</summary>
public sealed class TrialFacts(ITestOutputHelper output)
{
    private static readonly TrialPlan EightShops = new(Shops: 8, Years: 1, Seed: 1, AlwaysAccepted: false);

    [Fact]
    public void Eight_shops_of_a_year_keep_about_what_was_recorded_and_answer_alike_again()
    {
        var results = Run(EightShops, Rule.All);
        var report = TrialReport.Of(EightShops, Rule.All, results);
        output.WriteLine(report);
        var lines = report.Split('\n');
        Assert.Equal(TrialReport.Header, lines[0]);
        Assert.Equal(["0.5", "0.8", "0.9", "0.95"], lines[1..5].Select(line => line.Split(',')[0]));
        Assert.All(lines[1..5], line => Assert.Equal(6, line.Split(',').Length));

        // Some 250 promises of eight shops: three standard deviations are about .1, and the first year is the hardest.
        var promises = results[0].SelectMany(shop => shop.Promises).ToArray();
        var kept = promises.Average(promise => promise.Kept ? 1.0 : 0);
        Assert.InRange(kept - promises.Average(promise => promise.Chance), -0.2, 0.2);
        Assert.True(results[1..].All(rule => Kept(rule) < kept));

        var twoShops = EightShops with { Shops = 2 };
        Assert.Equal(
            TrialReport.Of(twoShops, [Rule.Program], [results[0][..2]]),
            TrialReport.Of(twoShops, [Rule.Program], Run(twoShops, [Rule.Program]))
        );
    }

    /// <summary>A check of the trial itself: what the book or the bench did wrong would show as a date not kept.</summary>
    [Fact]
    public void Where_nothing_goes_wrong_every_promise_is_kept()
    {
        var plan = EightShops with { Shops = 6, Seed = 2, Hardship = Hardship.None };
        var results = Run(plan, [Rule.Program]);
        Assert.All(
            results[0].SelectMany(shop => shop.Promises),
            promise => Assert.True(promise.Kept, $"{promise} was not kept")
        );
    }

    [Fact]
    public void No_blank_and_no_reed_is_lost_from_the_book()
    {
        var book = TrialShop.Live(seed: 11, Rule.Program, EightShops, out _);
        Assert.All(
            book.Batches,
            batch =>
                Assert.Equal(
                    batch.Started,
                    batch.Records.Sum(record => record.Rejected) + batch.Landed.Values.Sum() + batch.Alive
                )
        );
        var given = book.Orders.Sum(order => order.Wish.Reeds) - book.Pegs.Sum(peg => peg.Quantity);
        Assert.Equal(book.Batches.Sum(batch => batch.Landed.Values.Sum()), given + book.Drawer.Values.Sum());
        Assert.All(book.Drawer.Values, reeds => Assert.True(reeds >= 0));
        Assert.All(
            book.Orders.Where(order => order.ShippedOn is not null),
            order => Assert.True(order.ReadyOn < order.ShippedOn && book.Premises.Ships.Leaves(order.ShippedOn.Value))
        );
    }

    [Fact]
    public void Blanks_dry_their_nights_between_two_sittings()
    {
        var book = TrialShop.Live(seed: 12, Rule.Program, EightShops, out _);
        var records = book.Batches.SelectMany(batch => batch.Records.Where(record => record.RedoOf is null));
        // Both flattenings, the clip and the play-in are followed by a night.
        foreach (var batch in records.GroupBy(record => record.RootBatch))
        {
            var first = batch
                .GroupBy(record => record.Step)
                .ToDictionary(step => step.Key, step => step.Min(r => r.Day));
            foreach (var step in new[] { 1, 2, 5, 6 }.Where(step => first.ContainsKey(step + 1)))
            {
                Assert.True(first[step] < first[step + 1]);
            }
        }
    }

    [Fact]
    public void Every_way_of_promising_meets_the_same_nature()
    {
        var (one, other) = (new Nature(7, Hardship.Usual), new Nature(7, Hardship.Usual));
        var tray = new TrayAddress(Batch: 5, "clarinet", "clarinet lot 1", Tray: 0);
        var step = TrialModel.All[0].Route[2];
        _ = one.Work(tray with { Batch = 6 }, step, 20);
        Assert.Equal(one.Work(tray, step, 20), other.Work(tray, step, 20));
    }

    [Fact]
    public void Draws_have_the_means_they_are_named_for()
    {
        var numbers = Enumerable.Range(0, 20_000).Select(number => Draws.At(1, What.Order, (ulong)number)).ToArray();
        Assert.Equal(0.8, numbers.Average(dice => dice.FirstBeta(0.8, 0.05)), 0.005);
        var spread = numbers.Average(dice => Math.Pow(dice.FirstBeta(0.8, 0.05) - 0.8, 2));
        Assert.Equal(0.8 * 0.2 * 0.05, spread, 0.0005);
        Assert.Equal(1, numbers.Average(dice => Math.Pow(dice.FirstNormal(), 2)), 0.03);
        Assert.Equal(0.3, numbers.Average(dice => dice.FirstPoisson(0.3)), 0.015);
    }

    private static TrialResult[][] Run(TrialPlan plan, IReadOnlyList<Rule> rules) => TrialRun.Of(plan, rules, _ => { });

    private static double Kept(TrialResult[] rule) =>
        rule.SelectMany(shop => shop.Promises).Average(promise => promise.Kept ? 1.0 : 0);
}

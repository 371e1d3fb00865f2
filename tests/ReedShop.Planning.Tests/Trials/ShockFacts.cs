using ReedShop.Lab.Trials;
using Xunit;

namespace ReedShop.Planning.Tests.Trials;

/// <summary>What a shock does to a shop hangs on no way of promising, so that the quickest rule stands for all.</summary>
public sealed class ShockFacts
{
    private const int ShockDay = 60;

    private static readonly ulong[] Seeds = [21, 22, 23];
    private static readonly Rule Quick = Rule.All[^1];
    private static readonly TrialPlan FiveMonths = new(Shops: 1, Years: 1, Seed: 21, AlwaysAccepted: true)
    {
        MostDays = 150,
    };

    [Theory]
    [InlineData(ShockKind.Illness)]
    [InlineData(ShockKind.ToldIllness)]
    public void In_a_fortnights_illness_no_evening_is_worked_and_orders_are_taken(int kind)
    {
        var shock = new Shock((ShockKind)kind, ShockDay);
        var (ill, well) = (Live(shock), Live(null));
        Assert.DoesNotContain(ill.SelectMany(WorkedDays), shock.IsIll);
        Assert.Contains(well.SelectMany(WorkedDays), shock.IsIll);
        Assert.All(ill, book => Assert.Contains(WorkedDays(book), day => day >= ShockDay + Shock.IllDays));
        Assert.Contains(ill.SelectMany(book => book.Orders), order => shock.IsIll(DayOf(order.OrderedOn)));
    }

    [Fact]
    public void Only_a_shop_that_was_told_of_the_illness_plans_no_evening_in_it()
    {
        Assert.NotEmpty(PlannedWhileIll(new Shock(ShockKind.Illness, ShockDay)));
        Assert.Empty(PlannedWhileIll(new Shock(ShockKind.ToldIllness, ShockDay)));
    }

    [Fact]
    public void Fewer_blanks_of_a_bad_lot_survive()
    {
        var shops = Live(new Shock(ShockKind.Cane, ShockDay));
        var (bad, good) = (shops.SelectMany(book => Finished(book, isBad: true)).ToArray(), shops.SelectMany(Good));
        Assert.True(bad.Length > 10);
        // Six steps of odds 9 to 1 leave .53, of half these odds .30.
        Assert.InRange(Survived(bad) / Survived(good), 0.35, 0.8);

        static IEnumerable<TrialBatch> Good(Book book) => Finished(book, isBad: false);
    }

    [Fact]
    public void A_bad_lot_leaves_other_lots_as_they_were()
    {
        var (shocked, usual) = (new Nature(7, Hardship.Usual), new Nature(7, Hardship.Usual));
        shocked.BadLots.Add("clarinet lot 2");
        var step = TrialModel.All[0].Route[3];
        Assert.True(Passed(shocked, "clarinet lot 2") < 0.95 * Passed(usual, "clarinet lot 2"));
        Assert.Equal(Passed(usual, "clarinet lot 3"), Passed(shocked, "clarinet lot 3"));

        double Passed(Nature nature, string lot) =>
            Enumerable
                .Range(1, 100)
                .Sum(batch => nature.Work(new TrayAddress((ulong)batch, "clarinet", lot, Tray: 0), step, 20).Passed);
    }

    [Fact]
    public void Twice_the_demand_is_the_same_buyers_and_about_as_many_others()
    {
        var (usual, doubled, before) = (0, 0, 0);
        for (var seed = 1UL; seed <= 20; seed++)
        {
            var premises = Premises.Draw(seed, Demand.OrdersPerYear(seed));
            var same = Demand.Of(seed, premises, days: 400).Select(Told).ToArray();
            var twice = Demand.Of(seed, premises, days: 400, doubledFrom: 200).Select(Told).ToArray();
            Assert.Equal(same, twice[..same.Length]);
            usual += same.Count(wish => wish.Day >= 200);
            doubled += twice.Count(wish => wish.Day >= 200);
            before += twice[same.Length..].Count(wish => wish.Day < 200);
        }

        Assert.Equal(0, before);
        // Some 550 buyers twice: three standard deviations are about .18.
        Assert.InRange((double)doubled / usual, 1.82, 2.18);

        static (int Number, int Day, int Hour, int Reeds) Told(Wish wish) =>
            (wish.Number, wish.Day, wish.Hour, wish.Reeds);
    }

    /// <summary>Answers given before the shock are found once for all runs, which must change nothing.</summary>
    [Fact]
    public void A_shop_that_knows_its_answers_fares_as_one_that_finds_them()
    {
        var usual = FiveMonths with { MostDays = ShockDay + 20 };
        var ill = usual with { Shock = new Shock(ShockKind.Illness, ShockDay) };
        var known = new KnownAnswers(TrialShop.FirstDay.AddDays(ShockDay));
        var knowing = Rule.Program with { Over = book => new ProgramPromising(book, known) };
        var well = Fared(knowing, usual);
        var alone = Fared(Rule.Program, ill);
        Assert.Equal(alone, Fared(knowing, ill));
        Assert.NotEqual(alone, well);
        Assert.Contains(alone, order => DayOf(order.OrderedOn) < ShockDay);

        (DateOnly OrderedOn, DateOnly ShipBy, double Chance, DateOnly FinishBy, DateOnly? ShippedOn)[] Fared(
            Rule rule,
            TrialPlan plan
        ) =>
            [
                .. TrialShop
                    .Live(21, rule, plan, out _)
                    .Orders.Select(o => (o.OrderedOn, o.ShipBy, o.Chance, o.FinishBy, o.ShippedOn)),
            ];
    }

    [Fact]
    public void No_shop_is_begun_when_the_time_is_over_and_the_first_is_as_among_many()
    {
        var three = FiveMonths with { Shops = 3 };
        var first = TrialRun.Of(three with { Longest = TimeSpan.Zero }, [Quick], _ => { })[0];
        var all = TrialRun.Of(three, [Quick], _ => { })[0];
        Assert.Equal(3, all.Length);
        Assert.Equal(all[0].Promises, Assert.Single(first).Promises);
    }

    private static Book[] Live(Shock? shock) =>
        [.. Seeds.Select(seed => TrialShop.Live(seed, Quick, FiveMonths with { Shock = shock }, out _))];

    private static int DayOf(DateOnly date) => date.DayNumber - TrialShop.FirstDay.DayNumber;

    private static IEnumerable<int> WorkedDays(Book book) =>
        book.Batches.SelectMany(batch => batch.Records).Select(record => DayOf(record.Day));

    private static IEnumerable<int> PlannedWhileIll(Shock shock) =>
        Live(shock).SelectMany(book => book.Evenings).Select(evening => DayOf(evening.Date)).Where(shock.IsIll);

    private static IEnumerable<TrialBatch> Finished(Book book, bool isBad)
    {
        var arrived = TrialShop.FirstDay.AddDays(ShockDay);
        var bad = book.Cane.Where(lot => lot.SeasonedFrom == arrived).Select(lot => lot.Name).ToHashSet();
        return book.Batches.Where(batch => batch.Alive == 0 && bad.Contains(batch.Lot) == isBad);
    }

    private static double Survived(IEnumerable<TrialBatch> batches)
    {
        var all = batches.ToArray();
        return (double)all.Sum(batch => batch.Landed.Values.Sum()) / all.Sum(batch => batch.Started);
    }
}

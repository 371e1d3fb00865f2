using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Promising;

public sealed class PromiserFacts
{
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly DateOnly Monday = new(2027, 3, 1);

    /// <summary>
    /// Three nights at one damp in ten, computed independently by listing the cases: none .9^3 = .729; one more, which
    /// may follow any of the three, .729 (1 + 3/10) = .9477; two more, six ways, .729 (1 + .3 + .06) = .99144.
    /// </summary>
    [Theory]
    [InlineData(0, 0.729)]
    [InlineData(1, 0.9477)]
    [InlineData(2, 0.99144)]
    public void Damp_nights_are_allowed_for_exactly(int spare, double chance) =>
        Assert.Equal(chance, Delays.ChanceWithin(new(3, 0), spare, BenchHazards.OnlyDamp(0.1), Monday), 12);

    [Fact]
    public void Without_nights_nothing_can_stay_damp() =>
        Assert.Equal(1, Delays.ChanceWithin(new(0, 0), 0, BenchHazards.OnlyDamp(0.5), Monday));

    [Fact]
    public void Reeds_in_the_drawer_ship_on_the_next_ship_day_and_are_not_called_certain()
    {
        var promise = Promise(Shop(drawer: 5), quantity: 5);
        Assert.Equal(new DateOnly(2027, 3, 4), promise.ShipBy);
        Assert.Equal(DueDay.MostChance, promise.Chance);
        Assert.Equal(0, promise.Blanks);
    }

    /// <summary>
    /// Computed independently. Every blank survives with .8 and every reed is a 3: need 10 with .95 of 16 blanks
    /// (.973342668, LOT-MIN-1). Sittings on Tuesday and Wednesday, one night, never damp: ready Wednesday 3, out Thursday 4.
    /// </summary>
    [Fact]
    public void The_fewest_blanks_that_reach_the_confidence_are_started()
    {
        var promise = Promise(Shop(share: 0.8, damp: 0), quantity: 10, confidence: 0.95);
        Assert.Equal(16, promise.Blanks);
        Assert.Equal(0.973342668, promise.Chance, 9);
        Assert.Equal(new DateOnly(2027, 3, 4), promise.ShipBy);
    }

    /// <summary>17 blanks at .922 and two spare nights at .962 would give .887, not .9: both parts must make room.</summary>
    [Fact]
    public void The_stated_chance_is_cover_times_dry_nights()
    {
        var promise = Promise(Shop(share: 0.8, damp: 0.2), quantity: 10, confidence: 0.9);
        var dry = Delays.ChanceWithin(new(1, 2), promise.SpareDays, BenchHazards.OnlyDamp(0.2), Monday);
        Assert.Equal(promise.Lines[0].Cover * dry, promise.Chance, 12);
        Assert.True(promise.Chance >= 0.9);
        Assert.True(promise.Lines[0].Cover > promise.Chance);
    }

    [Fact]
    public void More_reeds_never_ship_sooner()
    {
        var shop = Shop(share: 0.8, damp: 0.1);
        var dates = Enumerable.Range(1, 30).Select(quantity => Promise(shop, quantity).ShipBy).ToArray();
        Assert.Equal(dates.Order(), dates);
    }

    [Fact]
    public void The_same_question_gets_the_same_answer()
    {
        var shop = Shop(share: 0.8, damp: 0.1);
        var (one, other) = (Promise(shop, 7), Promise(Shop(share: 0.8, damp: 0.1), 7));
        Assert.Equal((one.ShipBy, one.Chance, one.Blanks), (other.ShipBy, other.Chance, other.Blanks));
    }

    [Fact]
    public void The_reeds_are_to_be_finished_before_the_spare_days()
    {
        var promise = Promise(Shop(share: 0.8, damp: 0.3), quantity: 10);
        var spare = Enumerable.Range(1, promise.ShipBy.DayNumber - promise.FinishBy.DayNumber - 1).Count();
        Assert.True(spare >= promise.SpareDays);
        Assert.All(promise.Lines[0].New, batch => Assert.True(Monday.AddDays(batch.FinishDay) <= promise.FinishBy));
    }

    /// <summary>What is put off to the last day it may be done by finds later orders on the evenings it would need.</summary>
    [Fact]
    public void Reeds_wanted_in_two_months_are_begun_on_the_next_free_evening()
    {
        var request = new PromiseRequest([new PromiseLine("clarinet", Three, 10)], 0.9, 0);
        var promise = Promiser.PromiseBy(Shop(), request, Monday.AddDays(60)).Promise!;
        Assert.Equal(1, promise.Lines[0].New[0].Days[0]);
        Assert.True(promise.FinishBy > Monday.AddDays(50));
    }

    [Fact]
    public void Too_little_cane_is_told_apart_from_too_few_evenings()
    {
        var request = new PromiseRequest([new PromiseLine("clarinet", Three, 10)], 0.9, 0);
        Assert.Equal(NoPromiseReason.TooLittleCane, Promiser.Promise(Shop(cane: 5), request).Reason);
        Assert.Equal(NoPromiseReason.NoEvenings, Promiser.Promise(Shop(minutes: 0), request).Reason);
    }

    private static Promise Promise(ShopState shop, int quantity, double confidence = 0.9) =>
        Promiser
            .Promise(shop, new PromiseRequest([new PromiseLine("clarinet", Three, quantity)], confidence, 0))
            .Promise!;

    /// <summary>A shop whose only counted step keeps a known share, and whose reeds all come out at their aim.</summary>
    private static ShopState Shop(
        double share = 0.9,
        double damp = 0.1,
        int drawer = 0,
        int cane = 100,
        int minutes = 120
    )
    {
        var setUp = new SetUp("plate", 5);
        var route = new ReedRoute([
            new Leg("preparation", true, [new Step("flatten", setUp, 60, new Follow.Dry(1, 12, null))]),
            new Leg(
                "finishing",
                false,
                [
                    new Step("profile", setUp, 60, new Follow.StraightOn(), Check.Counted),
                    new Step("grade", setUp, 30, new Follow.StraightOn(), Check.Graded),
                ]
            ),
        ]);
        var yields = YieldEstimate.Of(
            new Dictionary<string, StepYield>
            {
                ["profile"] = StepYield.OfShare(share),
                ["grade"] = StepYield.OfShare(1),
            },
            _ => GradeMix.Of([(1, new Dictionary<Strength, double> { [Three] = 1 })])
        );
        var hours = new OpenHours(new TimeOnly(18, 0), new TimeOnly(18, 0).AddMinutes(minutes));
        var bench = new BenchCalendar(
            Enum.GetValues<DayOfWeek>().ToDictionary(day => day, _ => (IReadOnlyList<OpenHours>)[hours]),
            new Dictionary<DateOnly, IReadOnlyList<OpenHours>>()
        );
        return new ShopState(
            Monday,
            bench,
            new ShipCalendar(new HashSet<DayOfWeek> { DayOfWeek.Monday, DayOfWeek.Thursday }, new HashSet<DateOnly>()),
            BenchHazards.OnlyDamp(damp),
            24,
            new Workload(bench.OpenMinutes(Monday, 90), 60, BatchWork.SetUpMinutes([route]), []),
            Plan.Empty,
            new Dictionary<(string, Strength), int> { [("clarinet", Three)] = drawer },
            new Dictionary<string, ModelSupply>
            {
                ["clarinet"] = new(route, _ => yields, [], [new CaneSupply("north", Monday.AddYears(-1), cane)]),
            },
            []
        );
    }
}

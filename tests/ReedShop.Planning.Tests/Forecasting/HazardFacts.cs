using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;
using Xunit;

namespace ReedShop.Planning.Tests.Forecasting;

public sealed class HazardFacts
{
    private static readonly DateOnly NewYear = new(2027, 1, 1);

    [Fact]
    public void Before_anything_was_seen_the_shop_is_believed()
    {
        var hazards = HazardHistory.Empty.Hazards(dampBelieved: 0.1, lostBelieved: 0.05);

        Assert.All(hazards.DampByMonth, chance => Assert.Equal(0.1, chance, 12));
        Assert.Equal(0.05, hazards.LostEvening, 12);
    }

    [Fact]
    public void A_wet_month_is_told_from_a_dry_one()
    {
        var nights = Year(day => day.Month == 11 && day.Day % 2 == 0);

        var hazards = new HazardHistory(nights, []).Hazards(0.1, 0.05);

        Assert.InRange(hazards.DampByMonth[10], 0.25, 0.5);
        Assert.InRange(hazards.DampByMonth[5], 0, 0.05);
    }

    [Fact]
    public void Damp_nights_in_runs_are_told_from_scattered_ones()
    {
        var runs = new HazardHistory(Year(day => day.Day <= 6), []).Hazards(0.2, 0.05);
        var scattered = new HazardHistory(Year(day => day.Day % 5 == 0), []).Hazards(0.2, 0.05);

        Assert.InRange(runs.Persistence, 0.55, 0.9);
        Assert.InRange(scattered.Persistence, 0, 0.2);
    }

    [Fact]
    public void Evenings_lost_and_evenings_slow_are_counted_apart()
    {
        var evenings = Enumerable
            .Range(0, 200)
            .Select(day => new PlannedEvening(
                NewYear.AddDays(day),
                60,
                day % 10 == 0 ? 0
                    : day % 10 == 1 ? 30
                    : 60
            ))
            .ToArray();

        var hazards = new HazardHistory([], evenings).Hazards(0.1, 0.05);

        Assert.Equal(0.1, hazards.LostEvening, 0.02);
        Assert.Equal(1 / 9.0, hazards.SlowEvening, 0.02);
        Assert.InRange(hazards.SlowShare, 0.5, 0.7);
    }

    /// <summary>Twice a year five evenings in a row: that is being away, and says nothing of evenings lost alone.</summary>
    [Fact]
    public void Evenings_lost_in_a_row_are_a_spell_away()
    {
        var evenings = Enumerable
            .Range(0, 365)
            .Select(day => new PlannedEvening(NewYear.AddDays(day), 60, day % 180 is >= 50 and < 55 ? 0 : 60))
            .ToArray();

        var hazards = new HazardHistory([], evenings).Hazards(0.1, 0.05);

        Assert.Equal(1.5 / 365, hazards.AwayPerDay, 1e-4);
        Assert.InRange(hazards.AwayDays, 5, 7);
        Assert.InRange(hazards.LostEvening, 0, 0.01);
    }

    /// <summary>An illness of a week from the first day on or so: no work for as long, whatever else happens.</summary>
    [Fact]
    public void Who_is_away_works_on_none_of_those_evenings()
    {
        var away = BenchHazards.OnlyDamp(0) with { AwayPerDay = 0.02, AwayDays = 7 };
        var days = new DrawnDays(new SmallShop { Hazards = away }.State());
        var (lost, evenings, runs) = (0, 0, 0);
        for (var draw = 0; draw < 1000; draw++)
        {
            days.Draw(new Chances(1, draw));
            lost += days.OpenMinutes.Count(minutes => minutes == 0);
            evenings += days.OpenMinutes.Length;
            runs += days.OpenMinutes.Zip(days.OpenMinutes.Skip(1)).Count(pair => pair is (> 0, 0));
        }

        // A spell of seven days comes after fifty days at the bench: 7 of 57 evenings.
        Assert.Equal(7 / 57.0, lost / (double)evenings, 0.02);
        Assert.InRange(lost / (double)runs, 6, 8);
    }

    /// <summary>The chain is set so that every night has the chance of its month, however long the weather lasts.</summary>
    [Fact]
    public void Weather_that_lasts_makes_no_more_damp_nights_but_longer_runs()
    {
        var fickle = Runs(0);
        var lasting = Runs(0.6);

        Assert.Equal(0.2, fickle.Share, 0.01);
        Assert.Equal(0.2, lasting.Share, 0.01);
        Assert.Equal(0.2, fickle.AfterDamp, 0.02);
        Assert.Equal(0.2 + (0.6 * 0.8), lasting.AfterDamp, 0.02);
    }

    private static (double Share, double AfterDamp) Runs(double persistence)
    {
        var state = new SmallShop { Hazards = BenchHazards.OnlyDamp(0.2) with { Persistence = persistence } }.State();
        var days = new DrawnDays(state);
        var (damp, nights, pairs) = (0, 0, 0);
        for (var draw = 0; draw < 1000; draw++)
        {
            days.Draw(new Chances(1, draw));
            damp += days.DampNights.Count(isDamp => isDamp);
            nights += days.DampNights.Length;
            pairs += days.DampNights.Zip(days.DampNights.Skip(1)).Count(pair => pair.First && pair.Second);
        }

        return (damp / (double)nights, pairs / (double)damp);
    }

    private static RackNight[] Year(Func<DateOnly, bool> isDamp) =>
        [
            .. Enumerable
                .Range(0, 365)
                .Select(day => NewYear.AddDays(day))
                .Select(day => new RackNight(day, isDamp(day))),
        ];
}

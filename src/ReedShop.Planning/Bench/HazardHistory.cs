namespace ReedShop.Planning.Bench;

/// <summary>A night on which blanks lay on the rack.</summary>
/// <param name="Date">The day before it.</param>
public readonly record struct RackNight(DateOnly Date, bool IsDamp);

/// <summary>An evening for which work was planned.</summary>
public readonly record struct PlannedEvening(DateOnly Date, int PlannedMinutes, int DoneMinutes);

/// <summary>How nights and evenings went so far.</summary>
public sealed record HazardHistory(IReadOnlyList<RackNight> Nights, IReadOnlyList<PlannedEvening> Evenings)
{
    public static HazardHistory Empty { get; } = new([], []);

    // How much is believed before anything was seen, in nights or evenings. Weights of our own choice.
    private const double NightsBelieved = 30;
    private const double NightsBelievedByMonth = 20;
    private const double PairsBelieved = 20;
    private const double EveningsBelieved = 20;

    // Before any was seen. Common practice, no source.
    private const double SoberPersistence = 0.3;
    private const double SoberAwayDays = 7;

    /// <summary>Who loses one evening in twenty is away for a week once a year or so.</summary>
    private const double AwayPerLostEvening = 20.0 / 365;
    private const double DaysBelieved = 365;
    private const double SpellsBelieved = 2;
    private const int LeastInARow = 3;
    private const double SoberShare = 0.7;

    /// <summary>With less of its minutes done than this an evening was slow: a sitting more or less is no sign.</summary>
    private const double NearlyAll = 0.9;

    /// <summary>Means over what is believed and what was seen: a month is shrunk toward the year, the year toward the setting.</summary>
    /// <param name="dampBelieved">The chance of a damp night that the shop states before it has seen any.</param>
    /// <param name="lostBelieved">The chance that an evening is lost, and as likely slow, that it states likewise.</param>
    public BenchHazards Hazards(double dampBelieved, double lostBelieved)
    {
        var year = Share(Nights.Count(night => night.IsDamp), Nights.Count, dampBelieved, NightsBelieved);
        var away = Away();
        var alone = Evenings.Except(away.SelectMany(spell => spell)).ToArray();
        var worked = alone.Where(evening => !IsLost(evening)).ToArray();
        var slow = worked.Where(IsSlow).ToArray();
        return new BenchHazards(
            [.. Enumerable.Range(1, 12).Select(month => OfMonth(month, year))],
            Persistence(year),
            Share(alone.Length - worked.Length, alone.Length, lostBelieved, EveningsBelieved),
            Share(slow.Length, worked.Length, lostBelieved, EveningsBelieved),
            Share(slow.Sum(ShareDone), slow.Length, SoberShare, EveningsBelieved)
        )
        {
            AwayPerDay = Share(away.Count, DaysSeen, AwayPerLostEvening * lostBelieved, DaysBelieved),
            AwayDays = Share(away.Sum(Length), away.Count, SoberAwayDays, SpellsBelieved),
        };
    }

    private int DaysSeen => Evenings.Count == 0 ? 0 : 1 + Evenings[^1].Date.DayNumber - Evenings[0].Date.DayNumber;

    /// <summary>Evenings lost so many in a row that it was not each of them alone.</summary>
    private List<PlannedEvening[]> Away()
    {
        var spells = new List<PlannedEvening[]>();
        for (var first = 0; first < Evenings.Count; first++)
        {
            var spell = Evenings.Skip(first).TakeWhile(IsLost).ToArray();
            if (spell.Length >= LeastInARow)
            {
                spells.Add(spell);
            }

            first += spell.Length;
        }

        return spells;
    }

    private static int Length(PlannedEvening[] spell) => 1 + spell[^1].Date.DayNumber - spell[0].Date.DayNumber;

    private double OfMonth(int month, double year)
    {
        var nights = Nights.Where(night => night.Date.Month == month).ToArray();
        return Share(nights.Count(night => night.IsDamp), nights.Length, year, NightsBelievedByMonth);
    }

    /// <summary>Of the nights after a damp one, how many more than usual were damp too.</summary>
    private double Persistence(double year)
    {
        var damp = Nights.ToDictionary(night => night.Date, night => night.IsDamp);
        var after = Nights
            .Where(night => night.IsDamp && damp.ContainsKey(night.Date.AddDays(1)))
            .Select(night => damp[night.Date.AddDays(1)])
            .ToArray();
        var believed = year + (SoberPersistence * (1 - year));
        var again = Share(after.Count(isDamp => isDamp), after.Length, believed, PairsBelieved);
        return year < 1 ? Math.Clamp((again - year) / (1 - year), 0, 1) : 0;
    }

    private static bool IsLost(PlannedEvening evening) => evening.DoneMinutes == 0;

    private static bool IsSlow(PlannedEvening evening) => ShareDone(evening) < NearlyAll;

    private static double ShareDone(PlannedEvening evening) => evening.DoneMinutes / (double)evening.PlannedMinutes;

    private static double Share(double seen, int of, double believed, double weight) =>
        (seen + (believed * weight)) / (of + weight);
}

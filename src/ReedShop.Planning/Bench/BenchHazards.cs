namespace ReedShop.Planning.Bench;

/// <summary>What keeps a bench from going as planned, besides what happens to the blanks.</summary>
/// <param name="DampByMonth">Chance that a night leaves the blanks damp, for each month from January.</param>
/// <param name="Persistence">
/// Correlation of one night with the next, 0 to 1: weather lasts, so that damp nights come in runs.
/// </param>
/// <param name="LostEvening">Chance that an evening with planned work sees none of it.</param>
/// <param name="SlowEvening">Chance that one that is not lost offers only a part of its minutes.</param>
/// <param name="SlowShare">That part.</param>
public sealed record BenchHazards(
    IReadOnlyList<double> DampByMonth,
    double Persistence,
    double LostEvening,
    double SlowEvening,
    double SlowShare
)
{
    private const int Months = 12;

    /// <summary>Damp nights alone, each with the same chance and none with any memory of the one before.</summary>
    public static BenchHazards OnlyDamp(double chance) => new([.. Enumerable.Repeat(chance, Months)], 0, 0, 0, 1);

    /// <summary>Days ahead over which work that begins now meets the weather.</summary>
    private const int DaysAhead = 30;

    /// <summary>Chance that the maker falls out for days on a day: an illness takes many evenings at once.</summary>
    public double AwayPerDay { get; init; }

    /// <summary>Days that this takes, on average.</summary>
    public double AwayDays { get; init; }

    public double Damp(DateOnly night) => DampByMonth[night.Month - 1];

    /// <summary>The mean chance of a damp night in the month that begins on a day.</summary>
    public double DampAhead(DateOnly today) =>
        Enumerable.Range(0, DaysAhead).Average(night => Damp(today.AddDays(night)));

    /// <summary>The chance that an evening does not see its sitting: lost, or too slow for it as often as it is slow.</summary>
    public double EveningMissed => LostEvening + ((1 - LostEvening) * SlowEvening * (1 - SlowShare));
}

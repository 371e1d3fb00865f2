using ReedShop.Planning.Bench;

namespace ReedShop.Planning.Promising;

/// <summary>
/// FinishBy, the planner's due day of an open promise: the latest day for which the chance of shipping in time stays at
/// what was stated. A due day earlier than that takes evenings from others for nothing; one later breaks the promise
/// more often than was told.
/// </summary>
public static class DueDay
{
    /// <summary>
    /// Nothing is certain: reeds in the drawer can still be dropped or found cracked. Common practice, no source.
    /// </summary>
    public const double MostChance = 0.99;

    /// <summary>A chance as it may be told.</summary>
    public static double Told(double chance) => Math.Min(MostChance, chance);

    private const int MostSpareDays = 12;

    /// <summary>Where what was stated is out of reach, a spare day that adds a smaller part of the chance is no help.</summary>
    private const double LeastHelp = 0.002;

    /// <summary>A chance computed twice in different order may differ in the last digits; that is no lower chance.</summary>
    private const double Rounding = 1e-9;

    /// <summary>Chance of shipping in time: the reeds come out, and delays add no more than the spare days.</summary>
    /// <param name="cover">Chance that the reeds still to be made come out in number and strength.</param>
    /// <param name="inTime">Chance that delays add no more days than there are to spare.</param>
    public static double Chance(double cover, double inTime) => Math.Min(MostChance, cover * inTime);

    /// <summary>The latest day that keeps the chance of shipping by a day at what was stated, or as near as helps.</summary>
    /// <param name="ahead">What can still be delayed.</param>
    public static DateOnly Of(
        BenchCalendar bench,
        DateOnly today,
        DateOnly shipBy,
        double stated,
        double cover,
        WayAhead ahead,
        BenchHazards hazards
    ) => Leaving(bench, today, shipBy, SpareDays(stated, cover, ahead, hazards, today));

    /// <summary>The fewest spare bench days that keep the chance at what was stated, or as near as helps.</summary>
    public static int SpareDays(double stated, double cover, WayAhead ahead, BenchHazards hazards, DateOnly today)
    {
        var chances = Enumerable
            .Range(0, MostSpareDays + 1)
            .Select(spare => Chance(cover, Delays.ChanceWithin(ahead, spare, hazards, today)))
            .ToArray();
        var wanted = chances[^1] >= stated - Rounding ? stated - Rounding : chances[^1] * (1 - LeastHelp);
        return Array.FindIndex(chances, chance => chance >= wanted);
    }

    /// <summary>The latest day that leaves so many open bench days before the parcel goes; never before today.</summary>
    public static DateOnly Leaving(BenchCalendar bench, DateOnly today, DateOnly shipBy, int spareDays)
    {
        var day = shipBy.AddDays(-1);
        for (var kept = 0; kept < spareDays && day > today; day = day.AddDays(-1))
        {
            kept += bench.OpenMinutes(day) > 0 ? 1 : 0;
        }

        return day < today ? today : day;
    }
}

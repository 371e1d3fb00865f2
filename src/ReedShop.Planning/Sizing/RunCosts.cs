using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Sizing;

/// <summary>What the shop pays for cane, hours and lateness, in one unit of money.</summary>
/// <param name="LateDay">One more day that an order is late.</param>
/// <param name="SurplusWorth">The first reed too many; each further one is worth a part of the one before.</param>
public sealed record RunCosts(double Blank, double BenchHour, double LateDay, double SurplusWorth)
{
    // Reeds too many wait for a buyer, the next one longer: a choice of ours.
    private const double NextSurplus = 0.8;

    private const double MinutesPerHour = 60;
    private const double SecondsPerHour = 3600;

    /// <summary>
    /// Prices of runs of a route. A blank costs its cane and its time at the bench; a run its set-ups, each sitting once; a
    /// late run every day from its first sitting to its finish. A promised order is not given up.
    /// </summary>
    public RunPrices Of(ReedRoute route, int firstStep)
    {
        var sittings = route.Sittings(firstStep, route.Steps.Count);
        var setUpMinutes = sittings.Sum(sitting => sitting.SetUps.Sum(setUp => setUp.Minutes));
        var seconds = route.Steps.Skip(firstStep - 1).Sum(step => step.SecondsPerBlank);
        var days = RunWork.Of(route, firstStep, 1, int.MaxValue).Nights + 1;
        return new RunPrices(
            setUpMinutes * BenchHour / MinutesPerHour,
            Blank + (seconds * BenchHour / SecondsPerHour),
            days * LateDay,
            _ => double.PositiveInfinity,
            reeds => SurplusWorth * (1 - Math.Pow(NextSurplus, reeds)) / (1 - NextSurplus)
        );
    }
}

using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Sizing;

/// <summary>What a run of so many blanks asks of the bench, with nobody else there.</summary>
/// <param name="Evenings">Bench days it takes; more than its sittings where an evening is too short for all blanks.</param>
/// <param name="Minutes">Hands-on minutes, set-ups included.</param>
/// <param name="LongestMinutes">Of its longest sitting, set-ups included.</param>
/// <param name="Nights">Nights from its first sitting to its last, or to the finish.</param>
public sealed record RunWork(int Evenings, int Minutes, int LongestMinutes, int Nights)
{
    /// <param name="lastStep">The last step of the run; the end of the route where none is said.</param>
    public static RunWork Of(ReedRoute route, int firstStep, int blanks, int usualMinutes, int? lastStep = null)
    {
        var setUps = BatchWork.SetUpMinutes([route]);
        var work = BatchWork
            .Sittings(route, firstStep, lastStep ?? route.Steps.Count, blanks, usualMinutes)
            .Select(part => (part.Work.Nights, Minutes: part.Work.Minutes + part.Work.SetUps.Sum(key => setUps[key])))
            .ToArray();
        return new RunWork(
            work.Length,
            work.Sum(part => part.Minutes),
            work.Max(part => part.Minutes),
            work.Sum(part => part.Nights)
        );
    }

    /// <summary>The most blanks, up to so many, of which no sitting is longer than a usual evening; 0 where even one is.</summary>
    public static int MostAtOnce(ReedRoute route, int firstStep, int usualMinutes, int most)
    {
        var sittings = route.Sittings(firstStep, route.Steps.Count).Count;
        var blanks = 0;
        while (
            blanks < most
            && Of(route, firstStep, blanks + 1, usualMinutes) is var work
            && work.Evenings == sittings
            && work.LongestMinutes <= usualMinutes
        )
        {
            blanks++;
        }

        return blanks;
    }
}

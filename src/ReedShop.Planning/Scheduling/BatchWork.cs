using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Scheduling;

/// <summary>A sitting of a known number of blanks, or one part of it where an evening is too short for the whole.</summary>
/// <param name="Part">From 1.</param>
public sealed record BenchSitting(int FirstStep, int LastStep, int Part, int Blanks, WorkSitting Work);

/// <summary>Turns the steps a batch has left into the sittings the planner places.</summary>
public static class BatchWork
{
    /// <summary>
    /// All blanks are counted at every sitting: a plan that has room for the blanks started has room for those that
    /// survive. A sitting longer than <paramref name="usualMinutes"/>, or with more blanks than lips or hands last for
    /// in a day, is cut into parts on different days, and each part pays the set-ups again.
    /// </summary>
    public static IReadOnlyList<BenchSitting> Sittings(
        ReedRoute route,
        int firstStep,
        int lastStep,
        int blanks,
        int usualMinutes
    ) => [.. route.Sittings(firstStep, lastStep).SelectMany(sitting => Parts(sitting, blanks, usualMinutes))];

    /// <summary>Set-up minutes by key. Where two steps give one key different minutes, the longer counts.</summary>
    public static IReadOnlyDictionary<string, int> SetUpMinutes(IEnumerable<ReedRoute> routes) =>
        routes
            .SelectMany(route => route.Steps)
            .GroupBy(step => step.SetUp.Key, StringComparer.Ordinal)
            .ToDictionary(steps => steps.Key, steps => steps.Max(step => step.SetUp.Minutes), StringComparer.Ordinal);

    /// <summary>The most blanks of each tiring step that a day may see; where two routes differ, the fewer count.</summary>
    public static IReadOnlyDictionary<string, int> MostBlanks(IEnumerable<ReedRoute> routes) =>
        routes
            .SelectMany(route => route.Steps)
            .Where(step => step.MostPerDay is not null)
            .GroupBy(step => step.Name, StringComparer.Ordinal)
            .ToDictionary(
                steps => steps.Key,
                steps => steps.Min(step => step.MostPerDay!.Value),
                StringComparer.Ordinal
            );

    private static IEnumerable<BenchSitting> Parts(Sitting sitting, int blanks, int usualMinutes)
    {
        var parts = PartsNeeded(sitting, blanks, usualMinutes);
        string[] setUps = [.. sitting.SetUps.Select(setUp => setUp.Key)];
        for (var part = 1; part <= parts; part++)
        {
            var share = (blanks * part / parts) - (blanks * (part - 1) / parts);
            var last = part == parts;
            yield return new BenchSitting(
                sitting.FirstStep,
                sitting.LastStep,
                part,
                share,
                new WorkSitting(
                    sitting.HandsOnMinutes(share),
                    setUps,
                    last ? sitting.NightsAfter : 1,
                    last ? sitting.MostNightsAfter : null,
                    LeastHours: last ? sitting.LeastHoursAfter : 0,
                    Tiring: sitting.Tiring is { } step ? new TiringWork(step.Name, share) : null
                )
            );
        }
    }

    private static int PartsNeeded(Sitting sitting, int blanks, int usualMinutes)
    {
        var setUp = sitting.SetUps.Sum(setUp => setUp.Minutes);
        var mostPerDay = sitting.Tiring?.MostPerDay ?? blanks;
        var parts = Math.Max(1, (blanks + mostPerDay - 1) / Math.Max(1, mostPerDay));
        while (parts < blanks && setUp + sitting.HandsOnMinutes((blanks + parts - 1) / parts) > usualMinutes)
        {
            parts++;
        }

        return parts;
    }
}

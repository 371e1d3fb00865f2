using System.Diagnostics;
using System.Globalization;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>What it takes to check a plan by its rules, and to recover it when two evenings are lost.</summary>
internal static class RuleTimes
{
    private const int Rounds = 2000;

    public static string Of(CaseFile file, Arguments.TimeRules asked)
    {
        var plan = Planner.Build(file.Work, asked.Effort.Budget(asked.Seed));
        var rule = new RecoveryRule(file.Work);
        var standing = rule.DaysOf(plan);
        var recovered = new int[standing.Length];
        var planned = standing.Where(day => day != RecoveryRule.NoDay).ToArray();
        int[] open = [.. file.Work.OpenMinutes];
        open[planned[0]] = 0;
        open[planned[planned.Length / 2]] = 0;
        int[] releases = [.. file.Work.Batches.Select(batch => Math.Max(0, batch.ReleaseDay))];

        var check = Microseconds(() => PlanRules.Check(file.Work, plan));
        var recovery = Microseconds(() => rule.Recover(standing, open, releases, recovered));
        var moved = standing.Zip(recovered).Count(days => days.First != days.Second);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{file.Work.Batches.Count} batches, {standing.Length} sittings: check {check:F0} us, recovery {recovery:F1} us ({moved} sittings moved)"
        );
    }

    private static double Microseconds(Action work)
    {
        for (var warm = 0; warm < Rounds; warm++)
        {
            work();
        }

        var began = Stopwatch.GetTimestamp();
        for (var round = 0; round < Rounds; round++)
        {
            work();
        }

        return Stopwatch.GetElapsedTime(began).TotalMicroseconds / Rounds;
    }
}

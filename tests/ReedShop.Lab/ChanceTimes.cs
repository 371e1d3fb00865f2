using System.Diagnostics;
using System.Globalization;
using ReedShop.Planning;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab;

/// <summary>
/// How long the chances for every number of blanks take. The first question about a cane lot makes the law of its
/// survivors; every other need, strength or confidence asked of it reads that law.
/// </summary>
internal static class ChanceTimes
{
    private const int Steps = 8;

    private static readonly string[] Names = [.. Enumerable.Range(1, Steps).Select(i => $"step {i}")];
    private static readonly Strength Aim = Strength.OfQuarters(14);

    // The mix of a model with twelve graded batches: every node that a shop's history leaves.
    private static readonly GradeMix Mix = YieldEstimates
        .From(new([], [.. Enumerable.Range(1, 12).Select(Graded)]), new DateOnly(2027, 3, 1), YieldSettings.Default)
        .For("clarinet", null)
        .Grades(Aim);

    public static string Table()
    {
        var cases = new[] { (Nodes: 1, Most: 60), (Nodes: 16, Most: 60), (Nodes: 16, Most: 900) };
        return $"""
            grade mix of {Mix.Nodes.Count} nodes, {Steps} counted steps
            | nodes of the lot effect | blanks up to | warm: median, worst of 400 | first question: median, worst of 20 |
            |---|---|---|---|
            {string.Join('\n', cases.Select(c => Line(c.Nodes, c.Most)))}

            {Joint()}

            """;
    }

    private static string Line(int nodes, int most)
    {
        var known = Estimate(nodes);
        // A different need each time, as buyers ask; the first hundred let the runtime compile.
        var warm = Times(500, question => Ask(known, most, 1 + (question % (most / 2))))[100..];
        var first = Times(40, _ => Ask(Estimate(nodes), most, most / 3))[20..];
        return string.Create(
            CultureInfo.InvariantCulture,
            $"| {nodes} | {most} | {Median(warm):0.000} ms, {warm.Max():0.000} ms | {Median(first):0.0} ms, {first.Max():0.0} ms |"
        );
    }

    /// <summary>Ten of one strength and six of another, from two aims of up to 60 blanks each.</summary>
    private static string Joint()
    {
        Strength[] aims = [Aim, Aim.QuartersAway(2)!.Value];
        var need = GradeNeed.Each(new Dictionary<Strength, int> { [aims[0]] = 10, [aims[1]] = 6 });
        var yields = Estimate(16);
        var times = Times(12, _ => new JointSizer(yields, Names, need, 60).Smallest(aims, 0.9))[3..];
        return string.Create(
            CultureInfo.InvariantCulture,
            $"two aims together, 16 nodes: median {Median(times):0} ms, worst of 9 {times.Max():0} ms"
        );
    }

    private static double[] Times(int repeats, Action<int> ask)
    {
        var times = new double[repeats];
        for (var i = 0; i < repeats; i++)
        {
            var start = Stopwatch.GetTimestamp();
            ask(i);
            times[i] = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        }

        return times;
    }

    private static double Median(double[] times) => times.Order().ElementAt(times.Length / 2);

    private static void Ask(YieldEstimate yields, int most, int need)
    {
        var chances = BatchSizer.Chances(yields, Names, Mix, GradeNeed.Of(Aim, need), most);
        if (chances[most] <= chances[need - 1])
        {
            throw new InvalidOperationException("More blanks gave no better chance.");
        }
    }

    /// <summary>Each step as a shop's history leaves it: a hundred laws or so for every node.</summary>
    private static YieldEstimate Estimate(int nodes)
    {
        double[] weights = [.. Enumerable.Repeat(1.0 / nodes, nodes)];
        return YieldEstimate.Of(
            Names.ToDictionary(
                name => name,
                _ => new StepYield(weights, [.. weights.Select((_, node) => Survivors(0.97 - (0.005 * node)))])
            )
        );
    }

    private static SurvivalMix Survivors(double centre) =>
        new(
            from mean in Enumerable.Range(-12, 25).Select(i => centre + (0.002 * i))
            from clumping in new[] { 0, 0.012, 0.025, 0.05 }
            select (1.0, new BetaBinomial(Math.Min(mean, 0.999), clumping))
        );

    private static BatchGrades Graded(int number) =>
        new(
            $"B{number}",
            "clarinet",
            null,
            new DateOnly(2027, 2, 1),
            Aim,
            new Dictionary<Strength, int>
            {
                [Aim.QuartersAway(-1)!.Value] = 3 + (number % 3),
                [Aim] = 8,
                [Aim.QuartersAway(1)!.Value] = 3 + (number % 4),
            }
        );
}

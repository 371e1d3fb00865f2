using ReedShop.Planning;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab;

/// <summary>How often a number of blanks would be enough: as stated, and in truth.</summary>
internal readonly record struct Kept(double Stated, double Truly);

/// <summary>
/// Workshops whose truth is known are sized from a short history: the share most likely plugged in, against the posterior
/// predictive. The truth says how often that would have been enough.
/// </summary>
internal static class Coverage
{
    private const int Need = 10;
    private const int BlanksPerBatch = 20;
    private const int MostBlanks = 60;

    private static readonly double[] Clumpings = [0.02, 0.05, 0.1];
    private static readonly DateOnly Today = new(2027, 3, 1);

    /// <summary>Means over workshops of every yield from 55 to 95 in 100.</summary>
    public static (Kept Plugged, Kept Predictive) Trials(int batches, int trials, int seed)
    {
        var random = new Random(seed);
        var plugged = new List<Kept>();
        var predictive = new List<Kept>();
        for (var trial = 0; trial < trials; trial++)
        {
            var truth = new BetaBinomial(0.55 + (0.4 * random.NextDouble()), Clumpings[trial % Clumpings.Length]);
            var history = Enumerable
                .Range(0, batches)
                .Select(_ => Draw.Index(truth.Row(BlanksPerBatch), random))
                .ToArray();
            var truly = Chances(Known(truth));
            plugged.Add(Judge(Chances(Known(MostLikely(history))), truly));
            predictive.Add(Judge(Chances(Estimate(history)), truly));
        }

        return (Mean(plugged), Mean(predictive));
    }

    public static string Table(int trials, int seed)
    {
        var lines = new[] { 5, 10, 20 }.Select(batches =>
        {
            var (plugged, predictive) = Trials(batches, trials, seed);
            return FormattableString.Invariant(
                $"| {batches} | {plugged.Stated:0.000} | {plugged.Truly:0.000} | {predictive.Stated:0.000} | {predictive.Truly:0.000} |"
            );
        });
        return $"""
            | batches seen | plugged in: stated | kept | predictive: stated | kept |
            |---|---|---|---|---|
            {string.Join('\n', lines)}

            """;
    }

    /// <summary>The fewest blanks that are said to be enough nine times in ten.</summary>
    public static Kept Judge(double[] stated, double[] truly)
    {
        var blanks = BatchSizer.Smallest(stated, 0.9) ?? stated.Length - 1;
        return new(stated[blanks], truly[blanks]);
    }

    public static Kept Mean(IReadOnlyCollection<Kept> trials) =>
        new(trials.Average(trial => trial.Stated), trials.Average(trial => trial.Truly));

    private static double[] Chances(StepYield step) =>
        BatchSizer.Chances(
            YieldEstimate.Of(new Dictionary<string, StepYield> { ["flatten"] = step }),
            ["flatten"],
            null,
            GradeNeed.Of(Strength.OfQuarters(14), Need),
            MostBlanks
        );

    private static StepYield Known(BetaBinomial law) => new([1], [new SurvivalMix([(1, law)])]);

    private static StepYield Estimate(int[] history)
    {
        var counts = history.Select(
            (kept, i) => new StepCount($"B{i}", "clarinet", null, Today, "flatten", BlanksPerBatch, kept, 0)
        );
        return YieldEstimates
            .From(new([.. counts], []), Today, YieldSettings.Default)
            .For("clarinet", null)
            .Step("flatten");
    }

    private static BetaBinomial MostLikely(int[] history) =>
        (
            from mean in Enumerable.Range(1, 99).Select(i => i / 100.0)
            from clumping in new[] { 0, 0.005, 0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5 }
            select new BetaBinomial(mean, clumping)
        ).MaxBy(law => history.Sum(kept => law.LogPmf(kept, BlanksPerBatch)));
}

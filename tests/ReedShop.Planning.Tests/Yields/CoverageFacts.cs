using MathNet.Numerics.Distributions;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;
using BetaBinomial = ReedShop.Planning.Yields.BetaBinomial;

namespace ReedShop.Planning.Tests.Yields;

/// <summary>
/// Seeded trials: workshops whose truth is known are sized from a short history, and the truth says how often that would
/// have been enough.
/// </summary>
public sealed class CoverageFacts(ITestOutputHelper output)
{
    private const int Need = 10;

    private static readonly double[] Clumpings = [0.02, 0.05, 0.1];
    private static readonly double[] ReedSpreads = [0.7, 1, 1.4];
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void Five_batches_plugged_in_promise_too_much_and_the_predictive_keeps_its_word()
    {
        var random = new Random(1);
        var (plugged, predictive) = (
            new List<(double Stated, double Kept)>(),
            new List<(double Stated, double Kept)>()
        );
        for (var trial = 0; trial < 99; trial++)
        {
            var truth = new BetaBinomial(0.55 + (0.4 * random.NextDouble()), Clumpings[trial % 3]);
            var history = Enumerable.Range(0, 5).Select(_ => Draw(truth.Row(20), random)).ToArray();
            var truly = Chances(new SurvivalMix([(1, truth)]));
            plugged.Add(Judge(Chances(new SurvivalMix([(1, MostLikely(history))])), truly));
            predictive.Add(Judge(Chances(Estimate(history)), truly));
        }

        output.WriteLine($"plugged in {Mean(plugged)}, predictive {Mean(predictive)}");
        Assert.True(Mean(plugged).Kept < Mean(plugged).Stated - 0.03);
        Assert.True(Mean(plugged).Kept < 0.9);
        Assert.True(Mean(predictive).Kept > 0.9);
        Assert.Equal(Mean(predictive).Stated, Mean(predictive).Kept, 0.015);
    }

    [Fact]
    public void Batches_that_shift_as_a_whole_make_plain_counting_of_grades_promise_too_much()
    {
        // In quarter steps, around a bias that differs by model; twelve batches of fifteen reeds seen.
        var random = new Random(2);
        var accepted = new HashSet<Strength> { Strength.OfQuarters(13), ThreeAndAHalf, Strength.OfQuarters(15) };
        var (plain, shifting) = (new List<(double Stated, double Kept)>(), new List<(double Stated, double Kept)>());
        for (var trial = 0; trial < 42; trial++)
        {
            var truth = new GradeTruth(
                Normal.Sample(random, 0, 0.7),
                trial % 2 == 0 ? 0.8 : 1.2,
                ReedSpreads[trial % 3]
            );
            var history = Enumerable.Range(0, 12).Select(i => truth.Grades(i, random)).ToArray();
            var good = history.Sum(batch =>
                batch.Counts.Where(pair => accepted.Contains(pair.Key)).Sum(pair => pair.Value)
            );
            var truly = Cover(truth.Mix(), accepted);
            plain.Add(Judge(Chances(StepYield.OfBeta(1 + good, 1 + (12 * 15) - good)), truly));
            shifting.Add(Judge(Cover(Estimate(history), accepted), truly));
        }

        output.WriteLine($"plain {Mean(plain)}, shifting {Mean(shifting)}");
        Assert.True(Mean(plain).Kept < Mean(plain).Stated - 0.05);
        Assert.Equal(Mean(shifting).Stated, Mean(shifting).Kept, 0.02);
    }

    private static (double Stated, double Kept) Judge(double[] stated, double[] truly)
    {
        var blanks = BatchSizer.Smallest(stated, 0.9) ?? stated.Length - 1;
        return (stated[blanks], truly[blanks]);
    }

    private static (double Stated, double Kept) Mean(List<(double Stated, double Kept)> trials) =>
        (trials.Average(trial => trial.Stated), trials.Average(trial => trial.Kept));

    private static double[] Chances(SurvivalMix mix) => Chances(new StepYield([1], [mix]));

    private static double[] Chances(StepYield step) =>
        BatchSizer.Chances(
            YieldEstimate.Of(new Dictionary<string, StepYield> { ["flatten"] = step }),
            ["flatten"],
            null,
            GradeNeed.Of(ThreeAndAHalf, Need),
            most: 60
        );

    private static double[] Cover(GradeMix mix, IReadOnlySet<Strength> accepted) =>
        BatchSizer.Chances(
            YieldEstimate.Of(new Dictionary<string, StepYield>()),
            [],
            mix,
            GradeNeed.Any(accepted, Need),
            most: 120
        );

    private static GradeMix Estimate(BatchGrades[] history) =>
        YieldEstimates.From(new([], history), Today, YieldSettings.Default).For("clarinet", null).Grades(ThreeAndAHalf);

    private static StepYield Estimate(int[] history) =>
        YieldEstimates
            .From(
                new(
                    [.. history.Select((k, i) => new StepCount($"B{i}", "clarinet", null, Today, "flatten", 20, k, 0))],
                    []
                ),
                Today,
                YieldSettings.Default
            )
            .For("clarinet", null)
            .Step("flatten");

    private static BetaBinomial MostLikely(int[] history) =>
        (
            from mean in Enumerable.Range(1, 99).Select(i => i / 100.0)
            from clumping in new[] { 0, 0.005, 0.01, 0.02, 0.03, 0.05, 0.07, 0.1, 0.15, 0.2, 0.3, 0.5 }
            select new BetaBinomial(mean, clumping)
        ).MaxBy(law => history.Sum(k => law.LogPmf(k, 20)));

    private static int Draw(double[] row, Random random)
    {
        var left = random.NextDouble();
        var k = 0;
        while (k < row.Length - 1 && left >= row[k])
        {
            left -= row[k++];
        }

        return k;
    }

    /// <summary>How reeds aimed at 3½ come out, in quarter steps.</summary>
    private sealed record GradeTruth(double Bias, double BatchSpread, double ReedSpread)
    {
        private static readonly int[] Quarters = [.. Enumerable.Range(Strength.LeastQuarters, 21)];

        public BatchGrades Grades(int number, Random random)
        {
            var centre = ThreeAndAHalf.Quarters + Normal.Sample(random, Bias, BatchSpread);
            var counts = Enumerable
                .Range(0, 15)
                .Select(_ => (int)Math.Round(Normal.Sample(random, centre, ReedSpread)))
                .CountBy(quarters => Strength.OfQuarters(Math.Clamp(quarters, 4, 24)))
                .ToDictionary();
            return new BatchGrades($"B{number}", "clarinet", null, Today, ThreeAndAHalf, counts);
        }

        /// <summary>A hundred batches that stand for all.</summary>
        public GradeMix Mix() =>
            GradeMix.Of([
                .. Enumerable
                    .Range(0, 100)
                    .Select(i => ThreeAndAHalf.Quarters + Normal.InvCDF(Bias, BatchSpread, (i + 0.5) / 100))
                    .Select(centre => (1.0, (IReadOnlyDictionary<Strength, double>)Shares(centre))),
            ]);

        private Dictionary<Strength, double> Shares(double centre) =>
            Quarters.ToDictionary(
                Strength.OfQuarters,
                q => Normal.CDF(centre, ReedSpread, q + 0.5) - Normal.CDF(centre, ReedSpread, q - 0.5)
            );
    }
}

using MathNet.Numerics.Distributions;
using ReedShop.Lab;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Yields;

/// <summary>
/// Seeded trials: workshops whose truth is known are sized from a short history, and the truth says how often that would
/// have been enough.
/// </summary>
public sealed class CoverageFacts(ITestOutputHelper output)
{
    private const int Need = 10;

    private static readonly double[] ReedSpreads = [0.7, 1, 1.4];
    private static readonly DateOnly Today = new(2027, 3, 1);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Theory]
    [InlineData(5, 0.03)]
    [InlineData(10, 0.015)]
    [InlineData(20, 0.01)]
    public void A_short_history_plugged_in_promises_too_much_and_the_predictive_keeps_its_word(int batches, double too)
    {
        var (plugged, predictive) = Coverage.Trials(batches, trials: 99, seed: 1);
        output.WriteLine($"plugged in {plugged}, predictive {predictive}");
        Assert.True(plugged.Truly < plugged.Stated - too);
        Assert.True(predictive.Truly > 0.9);
        Assert.Equal(predictive.Stated, predictive.Truly, 0.015);
    }

    [Fact]
    public void Batches_that_shift_as_a_whole_make_plain_counting_of_grades_promise_too_much()
    {
        // In quarter steps, around a bias that differs by model; twelve batches of fifteen reeds seen.
        var random = new Random(2);
        var accepted = new HashSet<Strength> { Strength.OfQuarters(13), ThreeAndAHalf, Strength.OfQuarters(15) };
        var (plain, shifting) = (new List<Kept>(), new List<Kept>());
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
            plain.Add(Coverage.Judge(Chances(StepYield.OfBeta(1 + good, 1 + (12 * 15) - good)), truly));
            shifting.Add(Coverage.Judge(Cover(Estimate(history), accepted), truly));
        }

        output.WriteLine($"plain {Coverage.Mean(plain)}, shifting {Coverage.Mean(shifting)}");
        Assert.True(Coverage.Mean(plain).Truly < Coverage.Mean(plain).Stated - 0.05);
        Assert.Equal(Coverage.Mean(shifting).Stated, Coverage.Mean(shifting).Truly, 0.02);
    }

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

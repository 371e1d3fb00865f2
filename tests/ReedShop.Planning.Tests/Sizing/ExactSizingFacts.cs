using ReedShop.Lab;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

/// <summary>Sizing against whole fractions worked out here, without rounding, and against plain draws.</summary>
public sealed class ExactSizingFacts
{
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void Seventeen_of_twenty_seen_make_ten_of_fourteen_52383_in_61132()
    {
        var exact = AtLeast(10, 14, 1 + 17, 1 + 3);
        Assert.Equal(Exact.Of(52383, 61132), exact);
        Assert.Equal((double)exact, Chance(10, 14, StepYield.OfBeta(18, 4)), 1e-13);
    }

    [Fact]
    public void The_share_plugged_in_states_more_than_is_known()
    {
        var exact = Exact.Sum(From(10, 14).Select(k => Exact.Binomial(k, 14, Exact.Of(17, 20))));
        Assert.Equal(0.953260, (double)exact, 5e-7);
        Assert.Equal((double)exact, Chance(10, 14, StepYield.OfShare(0.85)), 1e-13);
    }

    [Fact]
    public void Three_independent_steps_keep_eight_of_twelve_in_735796_of_a_million()
    {
        var exact = AtLeast(8, Law(12, [(9, 1), (9, 1), (9, 1)]));
        Assert.Equal(0.735796, (double)exact, 5e-7);
        var step = StepYield.OfBeta(9, 1);
        Assert.Equal((double)exact, Chance(8, 12, step, step, step), 1e-13);
    }

    [Fact]
    public void Three_steps_with_one_chance_keep_eight_of_twelve_in_67_of_91()
    {
        // The cube of a Beta(9, 1) chance is a Beta(3, 1) chance.
        var exact = AtLeast(8, 12, 3, 1);
        Assert.Equal(Exact.Of(67, 91), exact);
        Assert.Equal((double)exact, Chance(8, 12, StepYield.OfBeta(3, 1)), 1e-13);
    }

    [Fact]
    public void A_lot_that_left_seven_of_fourteen_covers_ten_of_fourteen_in_385871_of_997890()
    {
        // The history speaks through its likelihood alone: the sum over nodes must do what the conjugate update does.
        var exact = AtLeast(10, 14, 8 + 7, 2 + 7);
        Assert.Equal(Exact.Of(385871, 997890), exact);
        var lot = Nodes.OfBeta(8, 2, seen: p => Math.Pow(p, 7) * Math.Pow(1 - p, 7));
        Assert.Equal((double)exact, Chance(10, 14, lot), 1e-12);
    }

    [Fact]
    public void Orders_are_served_in_the_order_of_their_promised_days()
    {
        // Eighteen blanks; orders of 8, 3 and 3: the second is served when eleven are good, the third when fourteen are.
        double[] served = [.. new[] { 8, 11, 14 }.Select(need => (double)AtLeast(need, 18, 8, 2))];
        Assert.Equal(Exact.Of(56, 57), AtLeast(8, 18, 8, 2));
        Assert.Equal([0.982456, 0.905599, 0.676781], served, (a, b) => Math.Abs(a - b) < 5e-7);
        Assert.Equal(
            served,
            new[] { 8, 11, 14 }.Select(need => Chance(need, 18, StepYield.OfBeta(8, 2))),
            (a, b) => Math.Abs(a - b) < 1e-13
        );
    }

    [Fact]
    public void Every_number_of_blanks_through_two_steps_and_a_grading_is_exact()
    {
        var yields = Estimate(StepYield.OfBeta(9, 1), StepYield.OfBeta(4, 2));
        var mix = GradeMix.Of([(1, Share(0.5)), (3, Share(0.75))]);
        var chances = BatchSizer.Chances(yields, Names(2), mix, GradeNeed.Of(ThreeAndAHalf, 3), 10);
        for (var n = 0; n <= 10; n++)
        {
            var finished = Law(n, [(9, 1), (4, 2)]);
            var exact = Exact.Sum(
                finished.Select(
                    (weight, k) =>
                        weight
                        * ((Exact.Of(1, 4) * Covers(k, Exact.Of(1, 2))) + (Exact.Of(3, 4) * Covers(k, Exact.Of(3, 4))))
                )
            );
            Assert.Equal((double)exact, chances[n], 1e-13);
        }

        static Exact Covers(int reeds, Exact share) =>
            Exact.Sum(From(3, reeds).Select(k => Exact.Binomial(k, reeds, share)));
    }

    [Fact]
    public void A_million_draws_agree_with_the_chance_of_sixteen_blanks()
    {
        const int Draws = 1_000_000;
        var random = new Random(20270301);
        var steps = new[] { StepYield.OfBeta(9, 1), StepYield.OfBeta(18, 4) };
        var survivors = steps
            .Select(step => Enumerable.Range(0, 17).Select(n => step.Survivors(n)).ToArray())
            .ToArray();
        var enough = 0;
        for (var draw = 0; draw < Draws; draw++)
        {
            var alive = survivors.Aggregate(16, (blanks, rows) => Draw.Index(rows[blanks], random));
            enough += alive >= 10 ? 1 : 0;
        }

        var chance = Chance(10, 16, steps);
        Assert.Equal(chance, enough / (double)Draws, 4.5 * Math.Sqrt(chance * (1 - chance) / Draws));
    }

    [Fact]
    public void Nine_hundred_blanks_lose_no_digit()
    {
        // Two certain steps around one of Beta(8, 2), whose exact law is known for any number.
        var exact = AtLeast(700, 900, 8, 2);
        Assert.Equal(
            (double)exact,
            Chance(700, 900, StepYield.OfShare(1), StepYield.OfBeta(8, 2), StepYield.OfShare(1)),
            1e-11
        );
    }

    /// <summary>Survivors of n blanks through beta-binomial steps, step by step.</summary>
    private static Exact[] Law(int n, (int Alpha, int Beta)[] steps)
    {
        var law = Enumerable.Range(0, n + 1).Select(k => (Exact)(k == n ? 1 : 0)).ToArray();
        foreach (var (alpha, beta) in steps)
        {
            law =
            [
                .. Enumerable
                    .Range(0, n + 1)
                    .Select(k =>
                        Exact.Sum(From(k, n).Select(alive => law[alive] * Exact.BetaBinomial(k, alive, alpha, beta)))
                    ),
            ];
        }

        return law;
    }

    private static Exact AtLeast(int need, Exact[] law) => Exact.Sum(law.Skip(need));

    private static Exact AtLeast(int need, int n, int alpha, int beta) =>
        Exact.Sum(From(need, n).Select(k => Exact.BetaBinomial(k, n, alpha, beta)));

    private static IEnumerable<int> From(int first, int last) => Enumerable.Range(first, Math.Max(0, last - first + 1));

    private static Dictionary<Strength, double> Share(double share) => new() { [ThreeAndAHalf] = share };

    private static double Chance(int need, int blanks, params StepYield[] steps) =>
        BatchSizer.Chances(Estimate(steps), Names(steps.Length), null, GradeNeed.Of(ThreeAndAHalf, need), blanks)[
            blanks
        ];

    private static string[] Names(int steps) => [.. Enumerable.Range(0, steps).Select(i => $"step {i}")];

    private static YieldEstimate Estimate(params StepYield[] steps) =>
        YieldEstimate.Of(Names(steps.Length).Zip(steps).ToDictionary(pair => pair.First, pair => pair.Second));
}

using MathNet.Numerics;
using ReedShop.Planning.Yields;
using Xunit;
using Reference = MathNet.Numerics.Distributions.BetaBinomial;

namespace ReedShop.Planning.Tests.Yields;

public sealed class BetaBinomialFacts
{
    // Geissler (1889), boys among the first 12 children of 6115 families of Saxony; frequencies as printed in the
    // encyclopedia article "Beta-binomial distribution".
    private static readonly int[] Saxony = [3, 24, 104, 286, 670, 1033, 1343, 1112, 829, 478, 181, 45, 7];

    // Skellam (1948), J.R.S.S. B 10:257, chromosome association; value from memory.
    private static readonly int[] Skellam = [32, 103, 122, 80];

    [Theory]
    [InlineData(1, 9, 1)]
    [InlineData(12, 0.4, 0.3)]
    [InlineData(20, 18, 4)]
    [InlineData(60, 2.5, 0.7)]
    [InlineData(200, 90, 10)]
    public void Row_logarithm_and_running_sum_agree_with_another_library(int n, double alpha, double beta)
    {
        var reference = new Reference(n, alpha, beta);
        var law = BetaBinomial.OfBeta(alpha, beta);
        var row = law.Row(n);
        var sum = 0.0;
        for (var k = 0; k <= n; k++)
        {
            sum += reference.Probability(k);
            Assert.Equal(reference.Probability(k), row[k], 1e-10);
            Assert.Equal(reference.ProbabilityLn(k), law.LogPmf(k, n), 1e-8);
            Assert.Equal(sum, law.Cdf(k, n), 1e-9);
        }
    }

    [Fact]
    public void Without_clumping_it_is_the_binomial_law()
    {
        var row = new BetaBinomial(0.5, 0).Row(4);
        Assert.Equal([1 / 16.0, 4 / 16.0, 6 / 16.0, 4 / 16.0, 1 / 16.0], row, Near(1e-15));
        Assert.Equal(Math.Log(6 / 16.0), new BetaBinomial(0.5, 0).LogPmf(2, 4), 1e-14);
    }

    [Fact]
    public void A_certain_step_loses_nothing_and_an_impossible_one_everything()
    {
        Assert.Equal([0, 0, 0, 1], new BetaBinomial(1, 0).Row(3));
        Assert.Equal([1, 0, 0, 0], new BetaBinomial(0, 0).Row(3));
        Assert.Equal([1], new BetaBinomial(0.9, 0.1).Row(0));
    }

    [Fact]
    public void A_thousand_blanks_do_not_underflow()
    {
        var law = BetaBinomial.OfBeta(500, 5);
        Assert.Equal(1, law.Row(1000).Sum(), 1e-12);
        Assert.Equal(new Reference(1000, 500, 5).ProbabilityLn(100), law.LogPmf(100, 1000), 1e-6);
    }

    [Fact]
    public void With_a_uniform_prior_every_count_is_as_likely_as_any_other() =>
        // Value from memory.
        Assert.All(BetaBinomial.OfBeta(1, 1).Row(11), chance => Assert.Equal(1 / 12.0, chance, 1e-15));

    [Theory]
    [InlineData(0, 0, 1 / 2.0)]
    [InlineData(5, 5, 6 / 7.0)]
    [InlineData(9, 10, 5 / 6.0)]
    public void The_next_blank_follows_Laplaces_rule_of_succession(int survived, int seen, double chance) =>
        // Value from memory.
        Assert.Equal(chance, BetaBinomial.OfBeta(1 + survived, 1 + seen - survived).Row(1)[1], 1e-15);

    [Fact]
    public void Seventeen_of_twenty_turn_a_uniform_prior_into_eighteen_and_four()
    {
        // Value from memory: the conjugate update, its mean and its variance.
        var posterior = BetaBinomial.OfBeta(1 + 17, 1 + 3);
        var secondMoment = posterior.Row(2)[2];
        Assert.Equal(0.8181818181818182, posterior.Mean, 1e-15);
        Assert.Equal(0.0064678404599353215, secondMoment - (posterior.Mean * posterior.Mean), 1e-15);
    }

    [Fact]
    public void Families_of_Saxony_have_the_printed_likelihood()
    {
        var fitted = LogLikelihood(BetaBinomial.OfBeta(34.09558, 31.5715), Saxony);
        Assert.Equal(-12492.9, fitted, 0.05);
        Assert.Equal(24989.74, (2 * 2) - (2 * fitted), 0.01);
        Assert.Equal(25070.34, 2 - (2 * LogLikelihood(new BetaBinomial(0.519215, 0), Saxony)), 0.01);
    }

    [Fact]
    public void No_neighbour_of_the_best_fit_to_Saxony_fits_better()
    {
        // Computed independently: the printed optimum had not quite converged.
        var best = LogLikelihood(BetaBinomial.OfBeta(34.1029, 31.5782), Saxony);
        Assert.True(best >= LogLikelihood(BetaBinomial.OfBeta(34.09558, 31.5715), Saxony));
        Assert.True(best > LogLikelihood(BetaBinomial.OfBeta(34.1029 * 1.02, 31.5782 * 1.02), Saxony));
        Assert.True(best > LogLikelihood(BetaBinomial.OfBeta(34.1029 / 1.02, 31.5782 / 1.02), Saxony));
        Assert.True(best > LogLikelihood(BetaBinomial.OfBeta(34.1029 * 1.01, 31.5782), Saxony));
        Assert.True(best > LogLikelihood(BetaBinomial.OfBeta(34.1029 / 1.01, 31.5782), Saxony));
    }

    [Fact]
    public void The_binomial_law_of_Saxony_has_the_printed_probabilities()
    {
        // CAST / GenStat e-book table.
        var row = new BetaBinomial(0.5192, 0).Row(12);
        Assert.Equal(0.2236, row[6], 5e-5);
        Assert.Equal(0.1775, row[5], 5e-5);
    }

    [Fact]
    public void Chromosome_associations_have_the_remembered_fit()
    {
        var law = BetaBinomial.OfBeta(6.1197, 4.4186);
        Assert.Equal(-436.81295, LogLikelihood(law, Skellam), 1e-4);
        Assert.Equal([33.97, 97.16, 127.67, 78.20], law.Row(3).Select(chance => 337 * chance), Near(0.01));
    }

    [Fact]
    public void Fewer_blanks_of_a_mixture_follow_from_more()
    {
        var laws = new[] { (0.3, BetaBinomial.OfBeta(9, 1)), (0.7, BetaBinomial.OfBeta(2, 3)) };
        var mix = new SurvivalMix(laws);
        foreach (var n in new[] { 1, 7, 64, 65, 100 })
        {
            var direct = laws.Select(part => part.Item2.Row(n)).ToArray();
            var expected = Enumerable.Range(0, n + 1).Select(k => (0.3 * direct[0][k]) + (0.7 * direct[1][k]));
            Assert.Equal(expected, mix.Survivors(n).ToArray(), Near(1e-13));
        }
    }

    [Fact]
    public void A_row_does_not_depend_on_what_was_asked_before()
    {
        var fresh = new SurvivalMix([(1, BetaBinomial.OfBeta(9, 1))]);
        var asked = new SurvivalMix([(1, BetaBinomial.OfBeta(9, 1))]);
        _ = asked.Survivors(300);
        Assert.Equal(asked.Survivors(12).ToArray(), fresh.Survivors(12).ToArray());
    }

    private static double LogLikelihood(BetaBinomial law, int[] frequencies)
    {
        // Printed likelihoods leave the number of orders in.
        var n = frequencies.Length - 1;
        return frequencies.Select((frequency, k) => frequency * law.LogPmf(k, n)).Sum();
    }

    private static EqualityComparer<double> Near(double tolerance) =>
        EqualityComparer<double>.Create((a, b) => a.AlmostEqual(b, tolerance));
}

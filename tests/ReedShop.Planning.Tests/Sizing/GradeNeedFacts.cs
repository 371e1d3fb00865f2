using CsCheck;
using MathNet.Numerics.Integration;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

/// <summary>The chance that finished reeds meet a need: no step is counted here, so blanks are finished reeds.</summary>
public sealed class GradeNeedFacts
{
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly Strength ThreeAndAQuarter = Strength.OfQuarters(13);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);

    [Fact]
    public void Two_strengths_are_needed_at_once()
    {
        // Computed independently by counting all outcomes: shares 1/5 and 3/10, need 1 and 2 of 6.
        var need = GradeNeed.Each(new Dictionary<Strength, int> { [Three] = 1, [ThreeAndAHalf] = 2 });
        Assert.Equal(97389.0 / 250000, Chances(Mix(0.2, 0, 0.3), need, 6)[6], 1e-14);
    }

    [Fact]
    public void Three_strengths_that_share_all_reeds_are_needed_at_once()
    {
        // Computed independently by counting all outcomes: shares 1/5, 3/10, 1/2, need 1, 1 and 2 of 6.
        Assert.Equal(1071.0 / 2000, Chances(Mix(0.2, 0.3, 0.5), OneOneTwo, 6)[6], 1e-14);
    }

    // Computed independently, in exact rationals: Dirichlet-multinomial (2, 3, 5), need 1, 1 and 2.
    [Theory]
    [InlineData(4, 18.0 / 143)]
    [InlineData(8, 6748.0 / 12155)]
    [InlineData(15, 1068223.0 / 1307504)]
    public void Shares_that_are_themselves_uncertain_cover_three_strengths(int reeds, double chance)
    {
        var chances = Chances(Dirichlet235(), OneOneTwo, 15);
        Assert.Equal(chance, chances[reeds], 1e-12);
        Assert.Equal(15, BatchSizer.Smallest(chances, 0.8));
    }

    [Fact]
    public void A_batch_comes_out_soft_or_hard_as_a_whole()
    {
        // Computed independently: half of the batches have 1/4 of their reeds at 3½, half 3/4; need 4 of 8.
        var mix = GradeMix.Of([(1, Shares(0, 0, 0.25)), (1, Shares(0, 0, 0.75))]);
        var need = GradeNeed.Of(ThreeAndAHalf, 4);
        Assert.Equal(35603.0 / 65536, Chances(mix, need, 8)[8], 1e-14);
        Assert.Equal(163.0 / 256, Chances(Mix(0, 0, 0.5), need, 8)[8], 1e-14);
    }

    [Fact]
    public void A_buyer_who_accepts_a_neighbour_is_served_from_both_strengths()
    {
        var mix = Mix(0.2, 0.3, 0.5);
        var either = GradeNeed.Any(new HashSet<Strength> { ThreeAndAQuarter, ThreeAndAHalf }, 4);
        Assert.Equal(
            Chances(Mix(0, 0, 0.8), GradeNeed.Of(ThreeAndAHalf, 4), 8),
            Chances(mix, either, 8),
            (a, b) => Math.Abs(a - b) < 1e-14
        );
        Assert.Equal(0.8, mix.Share(either.Accepted), 1e-15);
    }

    [Fact]
    public void Without_a_grade_mix_every_finished_reed_serves() =>
        Assert.Equal(
            [0, 0, 0, 1, 1],
            Chances(null, GradeNeed.Each(new Dictionary<Strength, int> { [Three] = 1, [ThreeAndAHalf] = 2 }), 4)
        );

    [Fact]
    public void A_strength_that_never_comes_out_is_never_covered() =>
        Assert.Equal([0, 0, 0], Chances(Mix(1, 0, 0), GradeNeed.Of(ThreeAndAHalf, 1), 2));

    [Fact]
    public void A_need_of_none_is_no_need() =>
        Assert.Empty(GradeNeed.Each(new Dictionary<Strength, int> { [Three] = 0 }).Parts);

    [Fact]
    public void Two_parts_that_accept_the_same_strength_are_refused()
    {
        var part = new NeedPart(new HashSet<Strength> { Three }, 1);
        Assert.Throws<ArgumentException>(() => GradeNeed.Of([part, part]));
        Assert.Throws<ArgumentException>(() => GradeNeed.Of(Three, -1));
    }

    [Fact]
    public void Accepting_more_strengths_never_lowers_the_chance() =>
        Gen.Select(Gen.Double[0, 0.5], Gen.Double[0, 0.5], Gen.Int[1, 10])
            .Sample(
                (a, b, count) =>
                {
                    var mix = Mix(0, a, b);
                    var one = Chances(mix, GradeNeed.Of(ThreeAndAHalf, count), 30);
                    var two = Chances(
                        mix,
                        GradeNeed.Any(new HashSet<Strength> { ThreeAndAQuarter, ThreeAndAHalf }, count),
                        30
                    );
                    return one.Zip(two).All(pair => pair.Second >= pair.First - 1e-13);
                },
                seed: "000000000001",
                iter: 300
            );

    [Fact]
    public void The_order_in_which_strengths_are_looked_at_does_not_matter() =>
        Gen.Select(Gen.Double[0, 0.5], Gen.Double[0, 0.5], Gen.Int[0, 5], Gen.Int[0, 5])
            .Sample(
                (a, b, first, second) =>
                {
                    var one = new NeedPart(new HashSet<Strength> { Three }, first);
                    var other = new NeedPart(new HashSet<Strength> { ThreeAndAHalf }, second);
                    return Chances(Mix(a, 0, b), GradeNeed.Of([one, other]), 20)
                        .Zip(Chances(Mix(a, 0, b), GradeNeed.Of([other, one]), 20))
                        .All(pair => Math.Abs(pair.First - pair.Second) < 1e-12);
                },
                seed: "000000000002",
                iter: 300
            );

    private static GradeNeed OneOneTwo { get; } =
        GradeNeed.Each(
            new Dictionary<Strength, int>
            {
                [Three] = 1,
                [ThreeAndAQuarter] = 1,
                [ThreeAndAHalf] = 2,
            }
        );

    private static double[] Chances(GradeMix? mix, GradeNeed need, int most) =>
        BatchSizer.Chances(YieldEstimate.Of(new Dictionary<string, StepYield>()), [], mix, need, most);

    private static GradeMix Mix(double three, double threeAndAQuarter, double threeAndAHalf) =>
        GradeMix.Of([(1, Shares(three, threeAndAQuarter, threeAndAHalf))]);

    private static Dictionary<Strength, double> Shares(double three, double threeAndAQuarter, double threeAndAHalf) =>
        new()
        {
            [Three] = three,
            [ThreeAndAQuarter] = threeAndAQuarter,
            [ThreeAndAHalf] = threeAndAHalf,
        };

    /// <summary>
    /// A Dirichlet law broken into two beta sticks, (2, 8) and (3, 5); Gauss-Legendre is exact, as covers are polynomials.
    /// </summary>
    private static GradeMix Dirichlet235()
    {
        var rule = new GaussLegendreRule(0, 1, 24);
        return GradeMix.Of([
            .. from i in Enumerable.Range(0, 24)
            from j in Enumerable.Range(0, 24)
            let x = rule.Abscissas[i]
            let y = rule.Abscissas[j]
            let density = x * Math.Pow(1 - x, 7) * y * y * Math.Pow(1 - y, 4)
            select (
                rule.Weights[i] * rule.Weights[j] * density,
                (IReadOnlyDictionary<Strength, double>)Shares(x, (1 - x) * y, (1 - x) * (1 - y))
            ),
        ]);
    }
}

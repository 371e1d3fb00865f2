using ReedShop.Lab;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using Xunit;

namespace ReedShop.Planning.Tests.Sizing;

public sealed class JointSizerFacts
{
    private static readonly Strength Three = Strength.OfQuarters(12);
    private static readonly Strength ThreeAndAHalf = Strength.OfQuarters(14);
    private static readonly Strength Four = Strength.OfQuarters(16);

    /// <summary>Half of an aim lands on it, a quarter a half strength to either side.</summary>
    private static readonly Func<Strength, GradeMix> Halves = aim =>
        GradeMix.Of([
            (
                1,
                new Dictionary<Strength, double>
                {
                    [aim.QuartersAway(-2)!.Value] = 0.25,
                    [aim] = 0.5,
                    [aim.QuartersAway(2)!.Value] = 0.25,
                }
            ),
        ]);

    [Fact]
    public void One_batch_alone_has_the_chance_that_sizing_says()
    {
        var yields = Estimate(StepYield.OfBeta(9, 1));
        var need = Need((Three, 2), (ThreeAndAHalf, 4));
        var joint = new JointSizer(yields, ["flatten"], need, 20);
        var chances = BatchSizer.Chances(yields, ["flatten"], Halves(ThreeAndAHalf), need, 20);
        Assert.All(
            chances,
            (chance, blanks) => Assert.Equal(chance, joint.Chance(new(ThreeAndAHalf, blanks), new(Three, 0)), 1e-12)
        );
    }

    [Fact]
    public void Two_batches_cover_two_strengths_exactly_as_counting_all_outcomes_says()
    {
        // Computed independently: 2 blanks toward 3 and 1 toward 4, all survive; need one 3 and one 3½.
        // First batch 3: 1/2, 3½: 1/4, elsewhere 1/4; second 3½: 1/4, 3: none. Alone 2 * 1/2 * 1/4 = 1/4;
        // with the second: no 3½ but a 3 in the first, 1 - 1/4 - (1/2)^2 = 1/2, times 1/4.
        var joint = new JointSizer(
            Estimate(StepYield.OfShare(1)),
            ["flatten"],
            Need((Three, 1), (ThreeAndAHalf, 1)),
            4
        );
        Assert.Equal((1 / 4.0) + (1 / 2.0 * (1 / 4.0)), joint.Chance(new(Three, 2), new(Four, 1)), 1e-14);
    }

    [Fact]
    public void Two_batches_of_one_lot_fail_together()
    {
        // Each batch needs its own strength: the chance of both is that of the square given the node.
        var shared = Nodes.OfBeta(3, 1);
        var yields = YieldEstimate.Of(new Dictionary<string, StepYield> { ["flatten"] = shared }, Sure);
        var both = new JointSizer(yields, ["flatten"], Need((Three, 8), (Four, 8)), 14).Chance(
            new(Three, 14),
            new(Four, 14)
        );
        var byNode = BatchSizer.ChancesByNode(yields, ["flatten"], null, GradeNeed.Of(Three, 8), 14);
        Assert.Equal(
            yields.NodeWeights.Select((weight, node) => weight * byNode[node][14] * byNode[node][14]).Sum(),
            both,
            1e-12
        );
        Assert.True(both > (1 - (3 / 17.0)) * (1 - (3 / 17.0)) + 0.05);

        GradeMix Sure(Strength aim) => GradeMix.Of([(1, new Dictionary<Strength, double> { [aim] = 1 })]);
    }

    [Fact]
    public void No_split_of_one_blank_less_is_enough()
    {
        var joint = new JointSizer(Estimate(StepYield.OfBeta(9, 1)), ["flatten"], Need((Three, 3), (Four, 4)), 30);
        var found = joint.Smallest([Three, Four], 0.9)!;
        Assert.True(found.Chance >= 0.9);
        Assert.Equal(2, found.Batches.Count);
        var fewer = found.Blanks - 1;
        Assert.All(
            Enumerable.Range(0, fewer + 1).Where(first => first <= 30 && fewer - first <= 30),
            first => Assert.True(joint.Chance(new(Three, first), new(Four, fewer - first)) < 0.9)
        );
    }

    [Fact]
    public void Two_aims_ask_fewer_blanks_than_one_for_strengths_apart()
    {
        var need = Need((Three, 3), (Four, 4));
        var yields = Estimate(StepYield.OfBeta(9, 1));
        var joint = new JointSizer(yields, ["flatten"], need, 60);
        var alone = joint.Smallest([ThreeAndAHalf], 0.9)!;
        var two = joint.Smallest([Three, ThreeAndAHalf, Four], 0.9)!;
        Assert.True(two.Blanks < alone.Blanks);
        Assert.Equal(
            alone.Blanks,
            BatchSizer.Smallest(BatchSizer.Chances(yields, ["flatten"], Halves(ThreeAndAHalf), need, 60), 0.9)
        );
    }

    [Fact]
    public void More_than_can_be_had_is_not_found() =>
        Assert.Null(
            new JointSizer(Estimate(StepYield.OfShare(0.5)), ["flatten"], Need((Three, 9)), 10).Smallest(
                [Three, Four],
                0.9
            )
        );

    [Fact]
    public void A_history_of_batches_that_come_out_hard_or_soft_together_agrees_with_draws()
    {
        // Batches of a lot share its place: drawn here place by place, batch by batch, reed by reed.
        var yields = YieldEstimates
            .From(new([], [.. Enumerable.Range(0, 6).Select(Graded)]), Today, YieldSettings.Default)
            .For("clarinet", null);
        var need = Need((Three, 3), (ThreeAndAHalf, 4));
        var stated = new JointSizer(yields, [], need, 12).Chance(new(Three, 8), new(ThreeAndAHalf, 10));
        const int Draws = 40_000;
        var random = new Random(5);
        var covered = 0;
        double[] weights = [.. yields.PlaceWeights];
        for (var draw = 0; draw < Draws; draw++)
        {
            var place = Draw.Index(weights, random);
            var (soft, right) = (0, 0);
            foreach (var (aim, reeds) in new[] { (Three, 8), (ThreeAndAHalf, 10) })
            {
                var mix = yields.Grades(aim, place);
                var node = mix.Nodes[Draw.Index([.. mix.Nodes.Select(n => n.Weight)], random)];
                for (var reed = 0; reed < reeds; reed++)
                {
                    var fall = random.NextDouble();
                    soft += fall < node.Share(Three) ? 1 : 0;
                    right += fall >= node.Share(Three) && fall < node.Share(Three) + node.Share(ThreeAndAHalf) ? 1 : 0;
                }
            }

            covered += soft >= 3 && right >= 4 ? 1 : 0;
        }

        Assert.Equal(stated, covered / (double)Draws, 4.5 * Math.Sqrt(stated * (1 - stated) / Draws));
    }

    [Fact]
    public void Places_of_the_lot_together_give_the_mix_of_a_single_batch()
    {
        var yields = YieldEstimates
            .From(new([], [.. Enumerable.Range(0, 6).Select(Graded)]), Today, YieldSettings.Default)
            .For("clarinet", null);
        var accepted = new HashSet<Strength> { ThreeAndAHalf };
        var byPlace = yields
            .PlaceWeights.Select((weight, place) => weight * yields.Grades(Three, place).Share(accepted))
            .Sum();
        Assert.Equal(yields.Grades(Three).Share(accepted), byPlace, 0.002);
    }

    [Fact]
    public void Reeds_that_come_out_soft_are_aimed_harder()
    {
        var soft = YieldEstimates
            .From(
                new([], [.. Enumerable.Range(0, 12).Select(i => Graded(i) with { Aim = Four })]),
                Today,
                YieldSettings.Default
            )
            .For("clarinet", null);
        var best = AimChoice.AimFor(soft, ThreeAndAHalf, 1);
        var shares = AimChoice.AimsFor(soft, ThreeAndAHalf, 1);
        Assert.True(best.Aim > ThreeAndAHalf);
        Assert.Equal(9, shares.Count);
        Assert.Equal(shares.Max(aim => aim.Share), best.Share);
        Assert.Equal(12, best.Batches);
    }

    /// <summary>
    /// Aimed at 4 they come out around 3½: so a promise of 3½ works its blanks toward 4, but not where 3 would do as well,
    /// to which the wanted aim comes near enough.
    /// </summary>
    [Fact]
    public void A_promise_aims_off_the_strength_only_where_clearly_more_come_out_right()
    {
        var soft = YieldEstimates
            .From(
                new([], [.. Enumerable.Range(0, 12).Select(i => Graded(i) with { Aim = Four })]),
                Today,
                YieldSettings.Default
            )
            .For("clarinet", null);
        HashSet<Strength> only = [ThreeAndAHalf];
        HashSet<Strength> orThree = [ThreeAndAHalf, Three];

        Assert.Equal(Four, AimChoice.AimFor(soft, ThreeAndAHalf, only, 2));
        Assert.Equal(ThreeAndAHalf, AimChoice.AimFor(soft, ThreeAndAHalf, orThree, 2));
        Assert.True(soft.Grades(Four).Share(only) > soft.Grades(ThreeAndAHalf).Share(only) + 0.05);
    }

    [Fact]
    public void Without_a_history_the_aim_is_the_strength_itself() =>
        Assert.Equal(
            ThreeAndAHalf,
            AimChoice
                .AimFor(
                    YieldEstimates.From(YieldHistory.Empty, Today, YieldSettings.Default).For("clarinet", null),
                    ThreeAndAHalf,
                    2
                )
                .Aim
        );

    [Fact]
    public void Aims_stay_on_the_scale_and_on_the_grades_of_the_shop()
    {
        var aims = AimChoice.AimsFor(Estimate(StepYield.OfShare(1), grades: false), Strength.OfQuarters(5), 2);
        Assert.Equal([5, 7, 9], aims.Select(aim => aim.Aim.Quarters));
    }

    private static DateOnly Today { get; } = new(2027, 3, 1);

    private static BatchGrades Graded(int number) =>
        new(
            $"B{number}",
            "clarinet",
            null,
            Today.AddDays(-number),
            ThreeAndAHalf,
            new Dictionary<Strength, int>
            {
                [Strength.OfQuarters(13 + (number % 2))] = 5,
                [ThreeAndAHalf] = 6,
                [Strength.OfQuarters(15)] = 3,
            }
        );

    private static GradeNeed Need(params (Strength Strength, int Count)[] parts) =>
        GradeNeed.Each(parts.ToDictionary(part => part.Strength, part => part.Count));

    private static YieldEstimate Estimate(StepYield step, bool grades = true) =>
        YieldEstimate.Of(new Dictionary<string, StepYield> { ["flatten"] = step }, grades ? Halves : null);
}

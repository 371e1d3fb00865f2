using ReedShop.Planning.Yields;

namespace ReedShop.Planning.Sizing;

/// <summary>So many blanks worked toward one aim.</summary>
public sealed record AimedBatch(Strength Aim, int Blanks);

/// <summary>Batches that together cover a need, with the chance that they do.</summary>
public sealed record JointSize(IReadOnlyList<AimedBatch> Batches, double Chance)
{
    public int Blanks => Batches.Sum(batch => batch.Blanks);
}

/// <summary>
/// How many blanks to start toward each of two aims, when both land on the strengths of one need. The batches share what
/// is not known of their lot, how many survive and how hard they come out: given a node of both they are independent, so
/// that what one leaves open is held against what the other gives.
/// </summary>
public sealed class JointSizer
{
    private readonly NeedStates states;
    private readonly YieldEstimate yields;
    private readonly Walk walk;
    private readonly int most;
    private readonly Dictionary<Strength, (double[][][] Laws, double[][][] Lacks)> aims = [];

    /// <param name="countedSteps">Names of the steps still to walk, in order.</param>
    /// <param name="most">The most blanks of one batch.</param>
    public JointSizer(YieldEstimate yields, IReadOnlyList<string> countedSteps, GradeNeed need, int most)
    {
        this.yields = yields;
        this.most = most;
        states = new NeedStates(need);
        walk = yields.Along(countedSteps);
    }

    /// <summary>States a need may have before sizing it jointly takes long.</summary>
    public const int MostStates = 600;

    /// <summary>Whether a need can be sized jointly in a moment; ask before making a sizer for it.</summary>
    public static bool IsSmall(GradeNeed need) => NeedStates.CountOf(need) <= MostStates;

    /// <summary>The fewest blanks in all, of one aim or of two; of as many, those with the best chance.</summary>
    /// <param name="among">Aims to try, every pair of them.</param>
    public JointSize? Smallest(IReadOnlyList<Strength> among, double confidence)
    {
        var pairs =
            from first in Enumerable.Range(0, among.Count)
            from second in Enumerable.Range(first, among.Count - first)
            where second > first || among.Count == 1
            select Smallest(among[first], among[second], confidence);
        return pairs
            .OfType<JointSize>()
            .OrderBy(size => size.Blanks)
            .ThenByDescending(size => size.Chance)
            .FirstOrDefault();
    }

    /// <summary>The chance that batches of two aims, either of which may be empty, cover the need together.</summary>
    public double Chance(AimedBatch one, AimedBatch other)
    {
        var laws = Of(one.Aim).Laws;
        var lacks = Of(other.Aim).Lacks;
        var chance = 0.0;
        for (var given = 0; given < laws.Length; given++)
        {
            chance += Weight(given) * Grid.Dot(laws[given][one.Blanks], lacks[given][other.Blanks]);
        }

        return Math.Min(1, chance);
    }

    private JointSize? Smallest(Strength one, Strength other, double confidence)
    {
        // One blank more never lowers the chance of the best split, so that totals can be halved.
        var (low, high) = (0, one == other ? most : 2 * most);
        var best = Best(one, other, high);
        if (best.Chance < confidence)
        {
            return null;
        }

        while (low < high)
        {
            var middle = (low + high) / 2;
            var split = Best(one, other, middle);
            if (split.Chance >= confidence)
            {
                (high, best) = (middle, split);
            }
            else
            {
                low = middle + 1;
            }
        }

        return best;
    }

    private JointSize Best(Strength one, Strength other, int total) =>
        Enumerable
            .Range(Math.Max(0, total - most), Math.Min(total, most) - Math.Max(0, total - most) + 1)
            .Where(first => one != other || first == total)
            .Select(first => (First: new AimedBatch(one, first), Second: new AimedBatch(other, total - first)))
            .Select(split => new JointSize(
                [.. new[] { split.First, split.Second }.Where(batch => batch.Blanks > 0)],
                Chance(split.First, split.Second)
            ))
            .MaxBy(size => size.Chance)!;

    /// <summary>[node and place][blanks][state], and the chances to give what each state leaves open.</summary>
    private (double[][][] Laws, double[][][] Lacks) Of(Strength aim)
    {
        if (!aims.TryGetValue(aim, out var known))
        {
            var laws = Enumerable
                .Range(0, yields.PlaceWeights.Count)
                .Select(place => states.AfterReeds(yields.Grades(aim, place), most))
                .SelectMany(reeds => walk.Nodes.Select(node => ByBlanks(node, reeds)))
                .ToArray();
            var lacks = Array.ConvertAll(laws, byBlanks => Array.ConvertAll(byBlanks, Lack));
            aims[aim] = known = (laws, lacks);
        }

        return known;
    }

    private double[][] ByBlanks(SurvivalMix node, double[][] reeds)
    {
        var table = node.Table(most);
        return
        [
            .. Enumerable
                .Range(0, most + 1)
                .Select(blanks =>
                {
                    var law = new double[states.Count];
                    for (var alive = 0; alive <= blanks; alive++)
                    {
                        Grid.Add(law, reeds[alive], table[blanks][alive]);
                    }

                    return law;
                }),
        ];
    }

    /// <summary>The states run from nothing to everything, so that what a state leaves open stands at the mirrored place.</summary>
    private double[] Lack(double[] law)
    {
        var chances = states.AtLeast(law);
        Array.Reverse(chances);
        return chances;
    }

    private double Weight(int given) =>
        yields.PlaceWeights[given / walk.Nodes.Count] * walk.NodeWeights[given % walk.Nodes.Count];
}

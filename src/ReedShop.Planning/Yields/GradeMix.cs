using System.Collections.Immutable;

namespace ReedShop.Planning.Yields;

/// <summary>One way a batch may come out: how hard, and how widely scattered.</summary>
public sealed class GradeNode
{
    internal const int Strengths = Strength.MostQuarters - Strength.LeastQuarters + 1;

    private readonly double[] shares;
    private readonly int softest;

    /// <param name="shares">Shares by strength, from the softest; they sum to at most 1.</param>
    internal GradeNode(double weight, double[] shares)
    {
        Weight = weight;
        this.shares = shares;
        softest = Math.Max(0, Array.FindIndex(shares, share => share > 0));
    }

    public double Weight { get; }

    /// <summary>Share of the reeds that land in one strength.</summary>
    public double Share(Strength strength) => shares[strength.Quarters - Strength.LeastQuarters];

    /// <summary>Where a reed lands that lies so far, from 0 to 1, among all of them from the softest; null off the scale.</summary>
    internal Strength? Lands(double place)
    {
        for (var strength = softest; strength < shares.Length; strength++)
        {
            if (place < shares[strength])
            {
                return Strength.OfQuarters(Strength.LeastQuarters + strength);
            }

            place -= shares[strength];
        }

        return null;
    }

    /// <summary>Share of the reeds that land in one of the accepted strengths.</summary>
    public double Share(IReadOnlySet<Strength> accepted)
    {
        var sum = 0.0;
        foreach (var strength in accepted)
        {
            sum += Share(strength);
        }

        return Math.Min(1, sum);
    }
}

/// <summary>
/// Where the reeds of one aim land in the next batch: a mixture of nodes, given one of which every reed falls into its
/// strength independently of the others.
/// </summary>
public sealed class GradeMix
{
    private readonly Lazy<double[]> upTo;

    internal GradeMix(IReadOnlyList<GradeNode> nodes)
    {
        Nodes = nodes;
        upTo = new(UpTo);
    }

    /// <summary>Their weights sum to 1.</summary>
    public IReadOnlyList<GradeNode> Nodes { get; }

    /// <summary>Batches of this model behind the figures.</summary>
    public int Batches { get; internal init; }

    /// <summary>Reeds of this model behind the figures.</summary>
    public int Reeds { get; internal init; }

    /// <summary>Mean share of every strength in which reeds may land, from the softest.</summary>
    public IReadOnlyList<(Strength Strength, double Share)> Shares =>
        [
            .. Enumerable
                .Range(Strength.LeastQuarters, GradeNode.Strengths)
                .Select(Strength.OfQuarters)
                .Select(strength => (strength, Share(ImmutableHashSet.Create(strength)))),
        ];

    /// <summary>A mixture of known shares; weights are scaled to sum to 1.</summary>
    public static GradeMix Of(IReadOnlyList<(double Weight, IReadOnlyDictionary<Strength, double> Shares)> nodes)
    {
        var total = nodes.Sum(node => node.Weight);
        return new GradeMix([.. nodes.Select(node => new GradeNode(node.Weight / total, Row(node.Shares)))]);
    }

    /// <summary>The node that lies so far, from 0 to 1, among all of them by their weights.</summary>
    internal GradeNode At(double place)
    {
        var found = Array.BinarySearch(upTo.Value, place);
        return Nodes[Math.Min(found < 0 ? ~found : found + 1, Nodes.Count - 1)];
    }

    private double[] UpTo()
    {
        var sums = new double[Nodes.Count];
        for (var node = 0; node < sums.Length; node++)
        {
            sums[node] = Nodes[node].Weight + (node == 0 ? 0 : sums[node - 1]);
        }

        return sums;
    }

    /// <summary>Mean share of reeds that land in one of the accepted strengths.</summary>
    public double Share(IReadOnlySet<Strength> accepted) => Nodes.Sum(node => node.Weight * node.Share(accepted));

    /// <summary>How many of so many finished reeds land in one of the accepted strengths.</summary>
    internal SurvivalMix Good(IReadOnlySet<Strength> accepted) =>
        new(Nodes.Select(node => (node.Weight, new BetaBinomial(node.Share(accepted), 0))));

    private static double[] Row(IReadOnlyDictionary<Strength, double> shares)
    {
        var row = new double[GradeNode.Strengths];
        foreach (var (strength, share) in shares)
        {
            row[strength.Quarters - Strength.LeastQuarters] = share;
        }

        return row;
    }
}

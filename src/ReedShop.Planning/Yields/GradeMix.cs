namespace ReedShop.Planning.Yields;

/// <summary>
/// Where the reeds of one aim land. Given a node (how hard this batch came out, and how widely it scatters) every reed
/// falls into its strength independently of the others.
/// </summary>
public sealed class GradeMix
{
    private readonly IReadOnlyList<(double Weight, double[] Shares)> nodes;

    /// <param name="nodes">Weights, and for each node the share of every strength; the shares of a node sum to at most 1.</param>
    public GradeMix(IEnumerable<(double Weight, IReadOnlyDictionary<Strength, double> Shares)> nodes)
        : this([.. nodes.Select(node => (node.Weight, Row(node.Shares)))]) { }

    internal GradeMix(IReadOnlyList<(double Weight, double[] Shares)> nodes)
    {
        var total = nodes.Sum(node => node.Weight);
        this.nodes = [.. nodes.Select(node => (node.Weight / total, node.Shares))];
    }

    /// <summary>Batches of this model behind the figures.</summary>
    public int Batches { get; internal init; }

    /// <summary>Weights of the nodes; they sum to 1.</summary>
    internal IEnumerable<double> NodeWeights => nodes.Select(node => node.Weight);

    /// <summary>Mean share of reeds that land in one of the accepted strengths.</summary>
    public double Share(IReadOnlySet<Strength> accepted) =>
        NodeShares(accepted).Zip(NodeWeights, (share, weight) => share * weight).Sum();

    /// <summary>Mean share of every strength in which reeds may land.</summary>
    public IReadOnlyDictionary<Strength, double> Shares =>
        Enumerable
            .Range(Strength.LeastQuarters, Count)
            .Select(Strength.OfQuarters)
            .Select(strength => (Strength: strength, Share: Share(new HashSet<Strength> { strength })))
            .Where(row => row.Share > 0)
            .ToDictionary(row => row.Strength, row => row.Share);

    /// <summary>Share of the accepted strengths for each node.</summary>
    internal IEnumerable<double> NodeShares(IReadOnlySet<Strength> accepted) =>
        nodes.Select(node => accepted.Sum(strength => node.Shares[strength.Quarters - Strength.LeastQuarters]));

    internal const int Count = Strength.MostQuarters - Strength.LeastQuarters + 1;

    private static double[] Row(IReadOnlyDictionary<Strength, double> shares)
    {
        var row = new double[Count];
        foreach (var (strength, share) in shares)
        {
            row[strength.Quarters - Strength.LeastQuarters] = share;
        }

        return row;
    }
}

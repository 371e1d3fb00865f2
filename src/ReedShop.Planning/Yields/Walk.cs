namespace ReedShop.Planning.Yields;

/// <summary>
/// What is known of the blanks of the next batch that walk one step, or several one after another: always the posterior
/// predictive, never a fitted point. Given a node of the effect that the steps of a batch share, the survivors of its
/// steps are independent.
/// </summary>
public class Walk
{
    // The share that survives of so many blanks is the yield of their batch to within a percent or two.
    private const int ManyBlanks = 256;
    private const double TailEachSide = 0.05;

    private readonly Lazy<(int Low, int High)> usual;

    /// <param name="weights">Weights of the nodes, summing to 1.</param>
    /// <param name="nodes">Survivors for each node.</param>
    public Walk(IReadOnlyList<double> weights, IReadOnlyList<SurvivalMix> nodes)
    {
        NodeWeights = weights;
        Nodes = nodes;
        All = SurvivalMix.Blend(weights, nodes);
        usual = new(() => Usual(ManyBlanks));
    }

    /// <summary>Mean share of blanks that survive, after any redo.</summary>
    public double Mean => All.Mean;

    /// <summary>Lower end of the 90 % interval for the yield of the next batch.</summary>
    public double Low => usual.Value.Low / (double)ManyBlanks;

    /// <summary>Upper end of the 90 % interval for the yield of the next batch.</summary>
    public double High => usual.Value.High / (double)ManyBlanks;

    /// <summary>Weights of the nodes of the shared effect.</summary>
    public IReadOnlyList<double> NodeWeights { get; }

    /// <summary>Survivors for each node of the shared effect.</summary>
    public IReadOnlyList<SurvivalMix> Nodes { get; }

    /// <summary>Survivors over all nodes: all that a single batch can be asked.</summary>
    public SurvivalMix All { get; }

    /// <summary>No step at all: every blank survives.</summary>
    internal static Walk Nowhere(IReadOnlyList<double> weights)
    {
        var all = new SurvivalMix([(1, new BetaBinomial(1, 0))]);
        return new(weights, [.. weights.Select(_ => all)]);
    }

    /// <summary>This and then another walk of the same estimate.</summary>
    internal Walk Then(Walk next) => new(NodeWeights, [.. Nodes.Zip(next.Nodes, SurvivalMix.Chain)]);

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/> blanks in the next batch.</summary>
    public double[] Survivors(int n) => All.Survivors(n).ToArray();

    /// <summary>The usual range of survivors: at most 5 % of batches leave fewer than Low, at most 5 % more than High.</summary>
    public (int Low, int High) Usual(int blanks) => Usual(Survivors(blanks));

    internal static (int Low, int High) Usual(double[] row) => (Tail(row), row.Length - 1 - Tail([.. row.Reverse()]));

    private static int Tail(double[] row)
    {
        var count = 0;
        for (var sum = row[0]; sum <= TailEachSide && count < row.Length - 1; sum += row[count])
        {
            count++;
        }

        return count;
    }
}

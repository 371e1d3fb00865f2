namespace ReedShop.Planning.Yields;

/// <summary>
/// What is known of one step for the next batch: always the posterior predictive, never a fitted point. Given a node of
/// the effect that the steps of a batch share, the survivors of its steps are independent.
/// </summary>
public sealed class StepYield
{
    // The share that survives of so many blanks is the yield of their batch to within a percent or two.
    private const int ManyBlanks = 256;
    private const double TailEachSide = 0.05;

    private readonly Lazy<(int Low, int High)> usual;

    /// <param name="weights">Weights of the nodes, summing to 1.</param>
    /// <param name="nodes">Survivors for each node.</param>
    public StepYield(IReadOnlyList<double> weights, IReadOnlyList<SurvivalMix> nodes)
    {
        NodeWeights = weights;
        Nodes = nodes;
        Mean = weights.Zip(nodes, (weight, node) => weight * node.Mean).Sum();
        usual = new(() => Usual(ManyBlanks));
    }

    /// <summary>Mean share of blanks that survive the step, after any redo.</summary>
    public double Mean { get; }

    /// <summary>Lower end of the 90 % interval for the yield of the next batch.</summary>
    public double Low => usual.Value.Low / (double)ManyBlanks;

    /// <summary>Upper end of the 90 % interval for the yield of the next batch.</summary>
    public double High => usual.Value.High / (double)ManyBlanks;

    /// <summary>Batches of this model behind the figure.</summary>
    public int Batches { get; internal init; }

    /// <summary>Blanks of this model behind the figure.</summary>
    public int Blanks { get; internal init; }

    /// <summary>Batches of other models that walked a step of this name and lend it what they can.</summary>
    public int OtherBatches { get; internal init; }

    /// <summary>Mean chance that a blank must be worked again.</summary>
    public double RedoChance { get; internal init; }

    /// <summary>Weights of the nodes of the shared effect.</summary>
    public IReadOnlyList<double> NodeWeights { get; }

    /// <summary>Survivors for each node of the shared effect.</summary>
    public IReadOnlyList<SurvivalMix> Nodes { get; }

    /// <summary>A step whose chance in a batch is drawn from a beta law, and that shares nothing with other steps.</summary>
    public static StepYield OfBeta(double alpha, double beta) => Of(BetaBinomial.OfBeta(alpha, beta));

    /// <summary>A step at which every blank has the same known chance.</summary>
    public static StepYield OfShare(double share) => Of(new BetaBinomial(share, 0));

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/> blanks in the next batch.</summary>
    public double[] Survivors(int n)
    {
        var row = new double[n + 1];
        for (var node = 0; node < Nodes.Count; node++)
        {
            Grid.Add(row, Nodes[node].Survivors(n), NodeWeights[node]);
        }

        return row;
    }

    /// <summary>The usual range of survivors: at most 5 % of batches leave fewer than Low, at most 5 % more than High.</summary>
    public (int Low, int High) Usual(int blanks)
    {
        var row = Survivors(blanks);
        return (Tail(row), blanks - Tail([.. row.Reverse()]));
    }

    private static StepYield Of(BetaBinomial law) => new([1], [new SurvivalMix([(1, law)])]);

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

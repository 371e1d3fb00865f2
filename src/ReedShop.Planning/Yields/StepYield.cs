namespace ReedShop.Planning.Yields;

/// <summary>
/// What is known of one step for the next batch: always the posterior predictive, never a fitted point. Given a node of
/// the effect that the steps of a batch share, the survivors of the steps are independent.
/// </summary>
public sealed class StepYield
{
    // The share of a batch this large is its yield to within half of one percent.
    private const int ManyBlanks = 200;
    private const double TailEachSide = 0.05;

    private readonly double[] weights;
    private readonly SurvivalMix[] nodes;
    private readonly Lazy<(double Low, double High)> interval;

    /// <param name="nodes">Survivors for each node of the shared effect, with its weight.</param>
    public StepYield(IReadOnlyList<(double Weight, SurvivalMix Survivors)> nodes)
    {
        weights = [.. nodes.Select(node => node.Weight)];
        this.nodes = [.. nodes.Select(node => node.Survivors)];
        Mean = weights.Zip(this.nodes, (weight, node) => weight * node.Mean).Sum();
        interval = new(() =>
            Bounds(ManyBlanks) is var (low, high) ? (low / (double)ManyBlanks, high / (double)ManyBlanks) : default
        );
    }

    /// <summary>Mean share of blanks that survive the step, after any redo.</summary>
    public double Mean { get; }

    /// <summary>Lower end of the 90 % interval for the yield of the next batch, in steps of half a percent.</summary>
    public double Low => interval.Value.Low;

    /// <summary>Upper end of the 90 % interval for the yield of the next batch, in steps of half a percent.</summary>
    public double High => interval.Value.High;

    /// <summary>Batches of this model behind the figure.</summary>
    public int Batches { get; internal set; }

    /// <summary>Blanks of this model behind the figure.</summary>
    public int Blanks { get; internal set; }

    /// <summary>Batches of other models that walked a step of this name; they lend it what they can.</summary>
    public int OtherBatches { get; internal set; }

    /// <summary>Mean chance that a blank must be worked again.</summary>
    public double RedoChance { get; internal set; }

    /// <summary>A step whose chance in a batch is drawn from a beta law, with nothing shared.</summary>
    public static StepYield OfBeta(double alpha, double beta) =>
        new([(1, new SurvivalMix([(1, BetaBinomial.OfBeta(alpha, beta))]))]);

    /// <summary>A step at which every blank has the same known chance.</summary>
    public static StepYield OfShare(double chance) => new([(1, new SurvivalMix([(1, new BetaBinomial(chance, 0))]))]);

    /// <summary>Probabilities of 0..n survivors of <paramref name="n"/> blanks in the next batch.</summary>
    public double[] Survivors(int n)
    {
        var row = new double[n + 1];
        for (var node = 0; node < nodes.Length; node++)
        {
            var own = nodes[node].Row(n);
            for (var k = 0; k <= n; k++)
            {
                row[k] += weights[node] * own[k];
            }
        }

        return row;
    }

    /// <summary>The usual range of survivors: 5 % of batches leave fewer than Low, 5 % more than High, at most.</summary>
    public (int Low, int High) Bounds(int blanks)
    {
        var row = Survivors(blanks);
        return (CountOut(row, k => k), blanks - CountOut(row, k => blanks - k));
    }

    /// <summary>Weights of the nodes of the shared effect; they sum to 1.</summary>
    internal IReadOnlyList<double> NodeWeights => weights;

    internal SurvivalMix Node(int node) => nodes[node];

    private static int CountOut(double[] row, Func<int, int> at)
    {
        var sum = row[at(0)];
        var count = 0;
        while (sum <= TailEachSide && count < row.Length - 1)
        {
            sum += row[at(++count)];
        }

        return count;
    }
}

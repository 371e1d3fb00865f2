namespace ReedShop.Planning.Yields;

/// <summary>What is known of one step for the next batch, with what stands behind it.</summary>
/// <param name="weights">Weights of the nodes, summing to 1.</param>
/// <param name="nodes">Survivors for each node.</param>
public sealed class StepYield(IReadOnlyList<double> weights, IReadOnlyList<SurvivalMix> nodes) : Walk(weights, nodes)
{
    /// <summary>Batches of this model behind the figure.</summary>
    public int Batches { get; internal init; }

    /// <summary>Blanks of this model behind the figure.</summary>
    public int Blanks { get; internal init; }

    /// <summary>Batches of other models that walked a step of this name and lend it what they can.</summary>
    public int OtherBatches { get; internal init; }

    /// <summary>Mean chance that a blank must be worked again.</summary>
    public double RedoChance { get; init; }

    /// <summary>A step whose chance in a batch is drawn from a beta law, and that shares nothing with other steps.</summary>
    public static StepYield OfBeta(double alpha, double beta) => Of(BetaBinomial.OfBeta(alpha, beta));

    /// <summary>A step at which every blank has the same known chance.</summary>
    public static StepYield OfShare(double share) => Of(new BetaBinomial(share, 0));

    private static StepYield Of(BetaBinomial law) => new([1], [new SurvivalMix([(1, law)])]);
}

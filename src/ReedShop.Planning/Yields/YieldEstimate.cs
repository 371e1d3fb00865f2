using System.Collections.Concurrent;

namespace ReedShop.Planning.Yields;

/// <summary>
/// What is known of one model made from one cane lot, step by step. The steps share the effect of the lot: all have the
/// same nodes with the same weights, and given a node their survivors are independent.
/// </summary>
public sealed class YieldEstimate
{
    private readonly Func<string, StepYield> step;
    private readonly GradeOutlook grades;
    private readonly Lazy<IReadOnlyList<double>> placeWeights;
    private readonly ConcurrentDictionary<string, StepYield> steps = new(StringComparer.OrdinalIgnoreCase);
    private readonly ConcurrentDictionary<string, Walk> walks = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<Strength, GradeMix> mixes = new();
    private readonly ConcurrentDictionary<(Strength Aim, int Place), GradeMix> placed = new();

    internal YieldEstimate(IReadOnlyList<double> nodeWeights, Func<string, StepYield> step, GradeOutlook grades)
    {
        NodeWeights = nodeWeights;
        this.step = step;
        this.grades = grades;
        placeWeights = new(grades.Weights);
    }

    /// <summary>Weights of the nodes of the effect that the steps share; they sum to 1.</summary>
    public IReadOnlyList<double> NodeWeights { get; }

    /// <summary>An estimate from known steps: all must have the same nodes.</summary>
    /// <param name="grades">Where reeds of an aim land; the little that is known without history where none is given.</param>
    public static YieldEstimate Of(
        IReadOnlyDictionary<string, StepYield> steps,
        Func<Strength, GradeMix>? grades = null
    )
    {
        var weights = steps.Count == 0 ? [1] : steps.Values.First().NodeWeights;
        return steps.Values.All(step => step.NodeWeights.SequenceEqual(weights))
            ? new YieldEstimate(
                weights,
                name => steps[name],
                grades is null ? GradeEvidence.None.Outlook("", "") : GradeOutlook.Of(grades)
            )
            : throw new ArgumentException("The steps of one estimate must share their nodes.", nameof(steps));
    }

    /// <summary>The step of that name; one that was never walked answers with the little that is known.</summary>
    public StepYield Step(string name) => steps.GetOrAdd(name, step);

    /// <summary>Steps walked one after another, made once for all questions about them.</summary>
    /// <param name="names">Of counted steps, in order; where there are none, every blank survives.</param>
    public Walk Along(IReadOnlyList<string> names) => walks.GetOrAdd(string.Join('\n', names), Walked, names);

    /// <summary>Where reeds worked toward an aim land.</summary>
    public GradeMix Grades(Strength aim) => mixes.GetOrAdd(aim, grades.Mix);

    /// <summary>
    /// Weights of the places at which the lot may lie, softer or harder: batches of one lot share the place, and given it
    /// come out independently. They sum to 1 and hold for every aim.
    /// </summary>
    public IReadOnlyList<double> PlaceWeights => placeWeights.Value;

    /// <summary>Where reeds worked toward an aim land, given the place of the lot.</summary>
    public GradeMix Grades(Strength aim, int place) =>
        placed.GetOrAdd((aim, place), asked => grades.At(asked.Aim, asked.Place));

    private Walk Walked(string key, IReadOnlyList<string> names) =>
        names.Count switch
        {
            0 => Walk.Nowhere(NodeWeights),
            1 => Step(names[0]),
            _ => Step(names[0]).Then(Along([.. names.Skip(1)])),
        };
}

namespace ReedShop.Planning.Yields;

/// <summary>
/// Where the reeds of a model and lot land, whatever they are worked toward: over all places at which the lot may lie, and
/// for each of them.
/// </summary>
/// <param name="Weights">Of the places; they sum to 1.</param>
/// <param name="At">Given a place, batches come out independently of each other.</param>
internal sealed record GradeOutlook(
    Func<Strength, GradeMix> Mix,
    Func<IReadOnlyList<double>> Weights,
    Func<Strength, int, GradeMix> At
)
{
    /// <summary>Known mixes: batches share nothing more.</summary>
    public static GradeOutlook Of(Func<Strength, GradeMix> mix) => new(mix, () => [1], (aim, _) => mix(aim));
}

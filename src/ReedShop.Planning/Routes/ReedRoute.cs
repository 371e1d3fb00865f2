namespace ReedShop.Planning.Routes;

/// <summary>A run of steps that a batch walks without leaving the bench, named by where it ends.</summary>
public sealed record Leg(string Name, bool EndsOnShelf, IReadOnlyList<Step> Steps);

/// <summary>
/// The steps of one batch done on one day, that is, between two dryings. Step numbers count the whole route from 1.
/// </summary>
public sealed record Sitting(
    int FirstStep,
    int LastStep,
    IReadOnlyList<Step> Steps,
    int NightsAfter,
    int? MostNightsAfter,
    int LeastHoursAfter
)
{
    public int HandsOnMinutes(int blanks) => Steps.Sum(step => step.HandsOnMinutes(blanks));

    /// <summary>The step that tires most: of it a day may see the fewest blanks.</summary>
    public Step? Tiring => Steps.Where(step => step.MostPerDay is not null).MinBy(step => step.MostPerDay);

    public IEnumerable<SetUp> SetUps => Steps.Select(step => step.SetUp).DistinctBy(setUp => setUp.Key);
}

/// <summary>
/// The ordered steps of a model. The preparation leg ends on the shelf, the finishing leg takes blanks from it;
/// a batch that an order cannot wait for walks both, one after the other.
/// </summary>
public sealed record ReedRoute(IReadOnlyList<Leg> Legs)
{
    public IReadOnlyList<Step> Steps { get; } = [.. Legs.SelectMany(leg => leg.Steps)];

    /// <summary>Number (from 1) of the first step after the shelf.</summary>
    public int FirstFinishingStep => 1 + Legs.TakeWhile(leg => leg.EndsOnShelf).Sum(leg => leg.Steps.Count);

    public Step this[int number] => Steps[number - 1];

    /// <summary>Number (from 1) of a step by its name, or null.</summary>
    public int? NumberOf(string name)
    {
        for (var index = 0; index < Steps.Count; index++)
        {
            if (string.Equals(Steps[index].Name, name, StringComparison.OrdinalIgnoreCase))
            {
                return index + 1;
            }
        }

        return null;
    }

    /// <summary>The number of the step at which blanks that failed at <paramref name="number"/> go back in.</summary>
    public int RedoStep(int number) => this[number].RedoFrom is { } name ? NumberOf(name) ?? number : number;

    /// <summary>
    /// The step at which blanks go back in that lay too long before step <paramref name="next"/>: where they would be
    /// sent had they failed there or at the step before it, so that they are soaked and have their night once more.
    /// </summary>
    public int RepeatStep(int next) => Math.Min(RedoStep(next), RedoStep(next - 1));

    /// <summary>Names of the steps after which blanks are counted, from one number to another (inclusive).</summary>
    public IReadOnlyList<string> CountedSteps(int firstStep, int lastStep) =>
        [
            .. Steps
                .Skip(firstStep - 1)
                .Take(lastStep - firstStep + 1)
                .Where(step => step.Check != Check.None)
                .Select(step => step.Name),
        ];

    /// <summary>
    /// Nights that blanks dry on the way from one step through another (inclusive), as buyers are told them: the least,
    /// with none for a sitting that takes several evenings.
    /// </summary>
    public int DryingNights(int firstStep, int lastStep) =>
        Sittings(firstStep, lastStep).Sum(sitting => sitting.NightsAfter);

    /// <summary>Cuts the steps from one number to another (inclusive) at their dryings.</summary>
    public IReadOnlyList<Sitting> Sittings(int firstStep, int lastStep)
    {
        var sittings = new List<Sitting>();
        var start = firstStep;
        for (var number = firstStep; number <= lastStep; number++)
        {
            var dry = this[number].Then as Follow.Dry;
            if (dry is null && number < lastStep)
            {
                continue;
            }

            var steps = Steps.Skip(start - 1).Take(number - start + 1).ToArray();
            sittings.Add(new Sitting(start, number, steps, dry?.Nights ?? 0, dry?.MostNights, dry?.LeastHours ?? 0));
            start = number + 1;
        }

        return sittings;
    }
}

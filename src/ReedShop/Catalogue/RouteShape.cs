using ReedShop.Planning;
using ReedShop.Planning.Routes;
using ReedShop.Platform;

namespace ReedShop.Catalogue;

/// <summary>A step as the API and the database write it. Exactly one of soak and dry, or neither, follows it.</summary>
public sealed record StepShape(
    string Name,
    string SetUp,
    int SetUpMinutes,
    int SecondsPerBlank,
    int? SoakMinutes = null,
    DryShape? Dry = null,
    Check Check = Check.None,
    int? MostPerDay = null,
    string? RedoFrom = null,
    string? Caution = null,
    MeasureShape? Measure = null
);

/// <summary>The thickness blanks should have after a step, and how far to either side it may be off.</summary>
public sealed record MeasureShape(decimal Target, decimal Tolerance, LengthUnit Unit = LengthUnit.Millimetre);

/// <summary>Nights on the rack. A night counts after the least hours; most nights is left out where rest may last.</summary>
public sealed record DryShape(int Nights, int LeastHours, int? MostNights = null);

public sealed record LegShape(string Name, bool EndsOnShelf, IReadOnlyList<StepShape> Steps);

/// <summary>Reads a route at the door, so that inside only walkable routes exist.</summary>
public static class RouteShape
{
    private const int MostSteps = 40;
    private const int MostSeconds = 4 * 3600;
    private const int MostNights = 60;

    public static IReadOnlyList<LegShape> Of(ReedRoute route) =>
        [.. route.Legs.Select(leg => new LegShape(leg.Name, leg.EndsOnShelf, [.. leg.Steps.Select(Of)]))];

    public static Result<ReedRoute> Parse(IReadOnlyList<LegShape> legs)
    {
        var steps = legs.SelectMany(leg => leg.Steps).ToArray();
        if ((LegFault(legs) ?? steps.Select(StepFault).FirstOrDefault(found => found is not null)) is { } fault)
        {
            return fault;
        }

        var names = new HashSet<string>(steps.Select(step => step.Name), StringComparer.OrdinalIgnoreCase);
        if (names.Count != steps.Length)
        {
            return Fault("a step's name appears twice", "names that differ, also between legs");
        }

        return steps.FirstOrDefault(step => step.RedoFrom is { } from && !names.Contains(from)) is { } lost
            ? Fault($"step {lost.Name} sends blanks back to an unknown step", "the name of an earlier step")
            : new ReedRoute([
                .. legs.Select(leg => new Leg(leg.Name.Trim(), leg.EndsOnShelf, [.. leg.Steps.Select(ToStep)])),
            ]);
    }

    private static Refusal? LegFault(IReadOnlyList<LegShape> legs)
    {
        if (legs.Count == 0 || legs.Any(leg => leg.Steps.Count == 0) || legs.Sum(leg => leg.Steps.Count) > MostSteps)
        {
            return Fault("the route is empty or too long", $"legs of at least one step, {MostSteps} steps in all");
        }

        var shelfLast = legs.Select(leg => leg.EndsOnShelf).ToArray();
        if (shelfLast[^1] || shelfLast.Count(ends => ends) > 1 || shelfLast.Length > 2)
        {
            return Fault(
                "the legs do not follow one another",
                "one finishing leg, or a preparation leg that ends on the shelf and a finishing leg"
            );
        }

        var steps = legs.SelectMany(leg => leg.Steps).ToArray();
        return steps[^1].Check == Check.Graded && steps.Count(step => step.Check == Check.Graded) == 1
            ? null
            : Fault("the route does not end with its grading", "one graded step, the last of the finishing leg");
    }

    private static Refusal? StepFault(StepShape step) =>
        step switch
        {
            { Name: var name } when string.IsNullOrWhiteSpace(name) || name.Length > 60 => Fault(
                "a step has no usable name",
                "1 to 60 characters"
            ),
            { SetUp: var key } when string.IsNullOrWhiteSpace(key) || key.Length > 60 => Fault(
                $"step {step.Name} has no usable set-up",
                "the plate or tool it needs, 1 to 60 characters"
            ),
            { SetUpMinutes: < 0 or > 240 } => Fault($"step {step.Name}: set-up minutes", "0 to 240 minutes"),
            { SecondsPerBlank: < 0 or > MostSeconds } => Fault($"step {step.Name}: seconds per blank", "0 to 14400"),
            { SoakMinutes: not null, Dry: not null } => Fault($"step {step.Name} soaks and dries", "one of the two"),
            { SoakMinutes: < 1 or > 720 } => Fault($"step {step.Name}: soak", "1 to 720 minutes"),
            { MostPerDay: < 1 } => Fault($"step {step.Name}: most per day", "1 or more, or nothing"),
            { Dry: { } dry } when dry.Nights is < 1 or > MostNights || dry.LeastHours is < 1 or > 24 => Fault(
                $"step {step.Name}: nights",
                "1 to 60 nights of at least 1 to 24 hours"
            ),
            { Dry: { MostNights: { } most } dry } when most < dry.Nights => Fault(
                $"step {step.Name}: most nights",
                "no fewer than its least nights"
            ),
            { Measure: { } measure } when !IsUsable(measure) => Fault(
                $"step {step.Name}: measure",
                $"a target of up to {Thickness.ThickestMillimetres} mm and a tolerance smaller than it, not below 0"
            ),
            _ => null,
        };

    private static bool IsUsable(MeasureShape measure) =>
        Thickness.IsUsable(measure.Target, measure.Unit)
        && measure.Tolerance >= 0
        && measure.Tolerance < measure.Target;

    private static Refusal Fault(string detail, string allowed) => Refusal.Invalid("route", detail, allowed);

    private static StepShape Of(Step step) =>
        new(
            step.Name,
            step.SetUp.Key,
            step.SetUp.Minutes,
            step.SecondsPerBlank,
            (step.Then as Follow.Soak)?.Minutes,
            step.Then is Follow.Dry dry ? new DryShape(dry.Nights, dry.LeastHours, dry.MostNights) : null,
            step.Check,
            step.MostPerDay,
            step.RedoFrom,
            step.Caution,
            step.Measure is { Target: var target, Tolerance: var tolerance }
                ? new MeasureShape(target.Value, new Thickness(tolerance, target.Unit).Value, target.Unit)
                : null
        );

    private static Step ToStep(StepShape step) =>
        new(
            step.Name.Trim(),
            new SetUp(step.SetUp.Trim(), step.SetUpMinutes),
            step.SecondsPerBlank,
            step switch
            {
                { SoakMinutes: { } minutes } => new Follow.Soak(minutes),
                { Dry: { } dry } => new Follow.Dry(dry.Nights, dry.LeastHours, dry.MostNights),
                _ => new Follow.StraightOn(),
            },
            step.Check,
            step.MostPerDay,
            step.RedoFrom,
            step.Caution,
            step.Measure is { } measure
                ? new Measure(
                    Thickness.Of(measure.Target, measure.Unit),
                    Thickness.Of(measure.Tolerance, measure.Unit).Count
                )
                : null
        );
}

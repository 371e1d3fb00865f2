using System.Collections.Concurrent;

namespace ReedShop.Planning.Yields;

/// <summary>
/// What the history says of every model and cane lot. Each level is shrunk toward the one before: all steps, the step over
/// all models, the model, the cane lot, the batch. Answers are posterior predictive and kept for the next question.
/// </summary>
public sealed class YieldEstimates
{
    // Before anything was counted: about 85 of 100 survive a step, with the weight of one batch of twenty.
    private const double SoberShare = 0.85;
    private const double SoberBlanks = 20;
    private const double NegligibleNode = 1e-4;

    private readonly Dictionary<string, StepEvidence> steps;
    private readonly StepEvidence unseen;
    private readonly LotShifts lots;
    private readonly StepTallies tallies;
    private readonly GradeEvidence grades;
    private readonly ConcurrentDictionary<(string Model, string Lot), Lazy<YieldEstimate>> known = new();

    private YieldEstimates(YieldHistory history, DateOnly today, YieldSettings settings)
    {
        var counts = history
            .Steps.Where(count => count.In > 0)
            .Select(count => (Weight: settings.Weight(count.Day, today), Count: count))
            .ToArray();
        var centre =
            ((SoberShare * SoberBlanks) + counts.Sum(row => row.Weight * row.Count.Out))
            / (SoberBlanks + counts.Sum(row => row.Weight * row.Count.In));
        steps = counts
            .GroupBy(row => row.Count.Step, StringComparer.OrdinalIgnoreCase)
            .ToDictionary(step => step.Key, step => new StepEvidence(centre, step), StringComparer.OrdinalIgnoreCase);
        unseen = new StepEvidence(centre, []);
        lots = new LotShifts(steps.Values);
        tallies = new StepTallies(counts);
        grades = new GradeEvidence(history.Grades, today, settings);
    }

    /// <summary>Reads a history as of a day; rows of later days count as of that day.</summary>
    public static YieldEstimates From(YieldHistory history, DateOnly today, YieldSettings settings) =>
        new(history, today, settings);

    /// <summary>What is known of a model made from a lot; a null or unknown lot is cane that nothing is known of.</summary>
    public YieldEstimate For(string model, string? caneLot) =>
        known.GetOrAdd((model, caneLot ?? ""), _ => new(() => Estimate(model, caneLot ?? ""))).Value;

    private YieldEstimate Estimate(string model, string lot)
    {
        var law = (double[])lots.Prior.Clone();
        var seen = steps.Values.Where(step => lot.Length > 0 && step.Groups.Any(group => group.Lot == lot)).ToArray();
        var given = seen.ToDictionary(
            step => step,
            step => law.Select((_, j) => step.Given(model, Shift(lot, j))).ToArray()
        );
        var logs = law.Select((weight, j) => Math.Log(weight) + seen.Sum(step => given[step][j].LogFit)).ToArray();
        Grid.Exp(logs);
        Grid.Scale(logs);
        var nodes = Enumerable.Range(0, logs.Length).Where(j => logs[j] > NegligibleNode).ToArray();
        var weights = nodes.Select(j => logs[j]).ToArray();
        Grid.Scale(weights);
        return new YieldEstimate(weights, Step, aim => grades.Mix(model, aim));

        StepYield Step(string name)
        {
            var step = steps.GetValueOrDefault(name, unseen);
            var alike = given.ContainsKey(step) ? null : step.Given(model, lots.Of);
            return tallies.Describe(
                new StepYield([
                    .. nodes.Zip(
                        weights,
                        (j, weight) =>
                            (weight, StepEvidence.Survivors(alike ?? given[step][j], j - StepEvidence.MostShift))
                    ),
                ]),
                model,
                name
            );
        }
    }

    private Func<string, int> Shift(string lot, int node) =>
        name => name == lot ? node - StepEvidence.MostShift : lots.Of(name);
}

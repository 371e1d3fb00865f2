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
    private const double Negligible = 1e-4;

    private readonly Dictionary<string, StepEvidence> steps;
    private readonly StepEvidence unseen;
    private readonly LotShifts lots;
    private readonly StepTallies tallies;
    private readonly GradeEvidence grades;
    private readonly Lazy<IReadOnlyList<Drift>> drifts;
    private readonly Lazy<IReadOnlyList<UsualRange>> ranges;
    private readonly ConcurrentDictionary<(string Model, string Lot), double[]> shifts = new();
    private readonly ConcurrentDictionary<(string Model, string Lot), Lazy<YieldEstimate>> known = new();

    private YieldEstimates(YieldHistory history, DateOnly today, YieldSettings settings)
    {
        var weights = new BatchWeights(history.Markers, today, settings);
        var counts = history
            .Steps.Where(count => count.IsTelling)
            .Select(count => (Weight: weights.Of(count.Model, count.Day), Count: count))
            .ToArray();
        var centre =
            ((SoberShare * SoberBlanks) + counts.Sum(row => row.Weight * row.Count.Out))
            / (SoberBlanks + counts.Sum(row => row.Weight * row.Count.In));
        var likelihoods = new CountLikelihoods();
        steps = counts
            .GroupBy(row => row.Count.Step, StringComparer.OrdinalIgnoreCase)
            .ToDictionary(
                step => step.Key,
                step => new StepEvidence(centre, likelihoods, step),
                StringComparer.OrdinalIgnoreCase
            );
        unseen = new StepEvidence(centre, likelihoods, []);
        lots = new LotShifts(steps.Values);
        tallies = new StepTallies(counts);
        grades = new GradeEvidence(history.Grades, weights, settings.QuartersBetweenGrades);
        drifts = new(() => DriftCheck.Of(history, today, settings));
        ranges = new(() => UsualRange.Of(history));
    }

    /// <summary>Reads a history as of a day; rows of later days count as of that day.</summary>
    public static YieldEstimates From(YieldHistory history, DateOnly today, YieldSettings settings) =>
        new(history, today, settings);

    /// <summary>Where the last batches are improbable under what came before.</summary>
    public IReadOnlyList<Drift> Drifts => drifts.Value;

    /// <summary>What batches kept one after another, with the range in which they usually lie.</summary>
    public IReadOnlyList<UsualRange> UsualRanges => ranges.Value;

    /// <summary>What is known of a model made from a lot; a null or unknown lot is cane that nothing is known of.</summary>
    public YieldEstimate For(string model, string? caneLot) =>
        known.GetOrAdd((model, caneLot ?? ""), _ => new(() => Estimate(model, caneLot ?? ""))).Value;

    /// <summary>The law of all survivors of several batches at one step, which share what is not known of it.</summary>
    internal double[] Totals(string model, string step, IEnumerable<(string Lot, int In)> batches)
    {
        var evidence = steps.GetValueOrDefault(step, unseen);
        var groups = batches
            .GroupBy(batch => batch.Lot)
            .Select(lot => (Shifts(model, lot.Key), lot.Select(batch => batch.In).ToArray()));
        return evidence.Given(model, lots.Of).Totals([.. groups]);
    }

    private double[] Shifts(string model, string lot) =>
        shifts.GetOrAdd((model, lot), asked => OfLot(asked.Model, asked.Lot).Shifts);

    /// <summary>How probable it is that batches of a lot come out at most so many quarter steps harder than their aims.</summary>
    internal Func<double, double> MeanOffset(string model, string lot, int batches, int reeds) =>
        grades.MeanOffset(model, lot, batches, reeds);

    /// <summary>The law of the shift of a lot, and for each step that saw the lot what it says given each shift.</summary>
    private (double[] Shifts, Dictionary<StepEvidence, StepPosterior[]> Given) OfLot(string model, string lot)
    {
        var seen = steps.Values.Where(step => lot.Length > 0 && step.Groups.Any(group => group.Lot == lot)).ToArray();
        var given = seen.ToDictionary(
            step => step,
            step => lots.OfNewLot.Select((_, node) => step.Given(model, Shift(lot, node))).ToArray()
        );
        var law = lots
            .OfNewLot.Select((weight, node) => Math.Log(weight) + seen.Sum(step => given[step][node].LogFit))
            .ToArray();
        Grid.Exp(law);
        Grid.Scale(law);
        return (law, given);
    }

    private YieldEstimate Estimate(string model, string lot)
    {
        // The lot's own shift is the one thing its steps share: each shift is a node, weighed by how well it fits them all.
        var (law, given) = OfLot(model, lot);
        var nodes = Enumerable.Range(0, law.Length).Where(node => law[node] > Negligible).ToArray();
        var weights = Array.ConvertAll(nodes, node => law[node]);
        Grid.Scale(weights);
        return new YieldEstimate(weights, Step, grades.Outlook(model, lot));

        StepYield Step(string name)
        {
            var step = steps.GetValueOrDefault(name, unseen);
            var alike = given.ContainsKey(step) ? null : step.Given(model, lots.Of);
            var survivors = Array.ConvertAll(
                nodes,
                node => (alike ?? given[step][node]).Survivors(node - CountLikelihoods.MostShift)
            );
            return tallies.Describe(model, name, weights, survivors);
        }
    }

    private Func<string, int> Shift(string lot, int node) =>
        name => name == lot ? node - CountLikelihoods.MostShift : lots.Of(name);
}

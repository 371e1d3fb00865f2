using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>What is known of one step: the share that survives in the next batch, with its 90 % interval.</summary>
/// <param name="Batches">Batches behind the estimate; with few of them the interval is wide.</param>
public sealed record StepYieldView(
    int Step,
    string Name,
    double Mean,
    double Low,
    double High,
    double RedoChance,
    int Batches,
    int Blanks
);

/// <summary>Where reeds worked toward an aim land.</summary>
public sealed record GradeMixView(Strength Aim, int Batches, IReadOnlyList<GradeShareView> Shares);

public sealed record GradeShareView(Strength Strength, double Share);

public sealed record YieldsView(
    string Model,
    IReadOnlyList<string> CaneLots,
    IReadOnlyList<StepYieldView> Steps,
    IReadOnlyList<GradeMixView> GradeMix,
    IReadOnlyList<DriftView> Drifts
);

public sealed record SizingRow(int Blanks, double Chance);

/// <param name="Blanks">The smallest number that reaches the confidence; missing where none within the table does.</param>
public sealed record SizingView(int? Blanks, double? Chance, double? ExpectedGood, IReadOnlyList<SizingRow> Table);

/// <summary>Yields and sizing for the maker to look at.</summary>
public sealed class YieldReader(StateReader states, EstimatesReader estimates, CatalogueStore catalogue)
{
    /// <summary>The table ends here; larger needs are met by several batches.</summary>
    private const int MostBlanks = 120;
    private const double LeastShareShown = 0.005;

    public async Task<Result<IReadOnlyList<YieldsView>>> Yields(string? model, CancellationToken cancel)
    {
        var models = await catalogue.All(cancel);
        if (model is not null && models.All(known => known.Key != model))
        {
            return Refusal.Invalid(
                "model",
                $"There is no model {model}.",
                string.Join(", ", models.Select(m => m.Key))
            );
        }

        var read = await states.Read(cancel);
        if (read.Refusal is { } refusal)
        {
            return refusal;
        }

        var state = read.Value.State;
        var drifts = (await estimates.Read(read.Value.Shop, state.Today, cancel)).Drifts;
        return models
            .Where(m => model is null || m.Key == model)
            .Select(m => Of(m, state.Models[m.Key], drifts.Where(drift => drift.Model == m.Key)))
            .ToArray();
    }

    public async Task<Result<SizingView>> Sizing(
        string model,
        Strength strength,
        int quantity,
        double confidence,
        CancellationToken cancel
    )
    {
        if (await catalogue.Find(model, cancel) is not { } found)
        {
            return Refusal.Invalid("model", $"There is no model {model}.", "a model of GET /api/models");
        }

        if (quantity is < 1 or > MostBlanks || confidence is not (> 0 and < 1))
        {
            return Refusal.Invalid(
                "quantity",
                "This cannot be sized.",
                $"1 to {MostBlanks} reeds, a confidence within 0 and 1"
            );
        }

        return (await states.Read(cancel)).Then<SizingView>(known =>
            Size(found, known.State.Models[model], strength, quantity, confidence)
        );
    }

    private static YieldsView Of(ReedModel model, ModelSupply supply, IEnumerable<Drift> drifts)
    {
        var yields = supply.Yields(null);
        return new YieldsView(
            model.Key,
            [.. supply.Cane.Select(lot => lot.Lot)],
            [
                .. model
                    .Route.CountedSteps(1, model.Route.Steps.Count)
                    .Select(name => Step(model.Route.NumberOf(name)!.Value, name, yields.Step(name))),
            ],
            [.. model.Strengths.Select(aim => Mix(aim, yields.Grades(aim)))],
            [.. drifts.Select(DriftView.Of)]
        );
    }

    private static StepYieldView Step(int number, string name, StepYield step) =>
        new(number, name, step.Mean, step.Low, step.High, step.RedoChance, step.Batches, step.Blanks);

    private static GradeMixView Mix(Strength aim, GradeMix mix) =>
        new(
            aim,
            mix.Batches,
            [
                .. mix
                    .Shares.Where(share => share.Share >= LeastShareShown)
                    .OrderBy(share => share.Strength)
                    .Select(share => new GradeShareView(share.Strength, share.Share)),
            ]
        );

    private static SizingView Size(
        ReedModel model,
        ModelSupply supply,
        Strength strength,
        int quantity,
        double confidence
    )
    {
        var yields = supply.Yields(supply.Cane.Count > 0 ? supply.Cane[0].Lot : null);
        var steps = model.Route.CountedSteps(1, model.Route.Steps.Count);
        var need = GradeNeed.Of(strength, quantity);
        var grades = yields.Grades(strength);
        var chances = BatchSizer.Chances(yields, steps, grades, need, MostBlanks);
        var blanks = BatchSizer.Smallest(chances, confidence);
        return new SizingView(
            blanks,
            blanks is { } enough ? chances[enough] : null,
            blanks is { } started ? BatchSizer.ExpectedGood(yields, steps, grades, need, started) : null,
            [.. chances.Select((chance, started) => new SizingRow(started, chance)).Skip(quantity)]
        );
    }
}

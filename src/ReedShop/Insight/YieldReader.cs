using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
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

/// <summary>Yields for the maker to look at.</summary>
public sealed class YieldReader(StateReader states, EstimatesReader estimates, CatalogueStore catalogue)
{
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
}

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

/// <summary>The same for the cane of one lot.</summary>
public sealed record LotMixView(string CaneLot, IReadOnlyList<GradeMixView> GradeMix);

public sealed record GradeShareView(Strength Strength, double Share);

public sealed record YieldsView(
    string Model,
    IReadOnlyList<string> CaneLots,
    IReadOnlyList<StepYieldView> Steps,
    IReadOnlyList<GradeMixView> GradeMix,
    IReadOnlyList<DriftView> Drifts,
    IReadOnlyList<TrendView>? Trends = null,
    IReadOnlyList<LotMixView>? ByLot = null
);

/// <summary>Yields for the maker to look at.</summary>
public sealed class YieldReader(
    StateReader states,
    EstimatesReader estimates,
    CatalogueStore catalogue,
    BatchStore batches
)
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
        var known = await estimates.Read(read.Value.Shop, state.Today, cancel);
        var roots = (await batches.Roots(cancel)).ToDictionary(root => root.Id, StringComparer.Ordinal);
        return models
            .Where(m => model is null || m.Key == model)
            .Select(m => Of(m, state.Models[m.Key], known, roots))
            .ToArray();
    }

    private static YieldsView Of(
        ReedModel model,
        ModelSupply supply,
        YieldEstimates known,
        IReadOnlyDictionary<string, Batch> roots
    )
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
            Mixes(model, yields),
            [.. known.Drifts.Where(drift => drift.Model == model.Key).Select(DriftView.Of)],
            [.. Trends(model, known).Select(range => TrendView.Of(range, roots))],
            [.. supply.Cane.Select(lot => new LotMixView(lot.Lot, Mixes(model, supply.Yields(lot.Lot))))]
        );
    }

    /// <summary>In the order of the route; steps of old records that it no longer has come last.</summary>
    private static IEnumerable<UsualRange> Trends(ReedModel model, YieldEstimates known) =>
        known
            .UsualRanges.Where(range => range.Model == model.Key)
            .OrderBy(range => model.Route.NumberOf(range.Step) ?? int.MaxValue);

    private static IReadOnlyList<GradeMixView> Mixes(ReedModel model, YieldEstimate yields) =>
        [.. model.Strengths.Select(aim => Mix(aim, yields.Grades(aim)))];

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

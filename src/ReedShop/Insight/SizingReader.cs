using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Sizing;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using ReedShop.Workshop;

namespace ReedShop.Insight;

/// <summary>A sizing question.</summary>
/// <param name="Aim">The strength the batch is worked toward; the wanted one where none is said.</param>
/// <param name="Runs">Runs that can still finish by the due day.</param>
public sealed record SizingWish(
    string Model,
    Strength Strength,
    int Quantity,
    double Confidence,
    BlanksFrom From = BlanksFrom.Cane,
    Strength? Aim = null,
    int Runs = 1
);

/// <summary>Answers how many blanks to start.</summary>
public sealed class SizingReader(StateReader states, CatalogueStore catalogue)
{
    public const int MostRuns = 5;

    /// <summary>The table ends here; larger needs are met by several batches.</summary>
    private const int MostBlanks = 120;

    /// <summary>Of one of two batches that are sized together.</summary>
    private const int MostBlanksOfTwo = 60;

    public async Task<Result<SizingView>> Size(SizingWish wish, CancellationToken cancel)
    {
        if (wish.Quantity is < 1 or > MostBlanks || wish.Runs is < 0 or > MostRuns)
        {
            return Refusal.Invalid(
                "quantity",
                "This cannot be sized.",
                $"1 to {MostBlanks} reeds, 0 to {MostRuns} runs"
            );
        }

        var read = await Read(wish.Model, wish.Confidence, cancel);
        return read.Then<SizingView>(shop => new SizingTable(shop, wish, MostBlanks).View());
    }

    /// <param name="counts">So many of each strength.</param>
    public async Task<Result<JointSizingView>> SizeJointly(
        string model,
        IReadOnlyDictionary<Strength, int> counts,
        double confidence,
        BlanksFrom from,
        CancellationToken cancel
    )
    {
        if (counts.Count == 0 || counts.Values.Any(count => count is < 1 or > MostBlanksOfTwo))
        {
            return Refusal.Invalid(
                "need",
                "This cannot be sized.",
                $"strengths with 1 to {MostBlanksOfTwo} reeds each"
            );
        }

        var read = await Read(model, confidence, cancel);
        return read.Then(shop => Jointly(shop, GradeNeed.Each(counts), confidence, from));
    }

    private async Task<Result<SizedModel>> Read(string model, double confidence, CancellationToken cancel)
    {
        if (await catalogue.Find(model, cancel) is not { } found)
        {
            return Refusal.Invalid(
                "model",
                $"There is no model {model}.",
                Words.Named("a model of the list", "a model of GET /api/models")
            );
        }

        if (confidence is not (> 0 and < 1))
        {
            return Refusal.Invalid(
                "confidence",
                "Nothing can be that sure.",
                Words.Named("1 to 99 in 100", "a chance within 0 and 1, such as 0.9")
            );
        }

        return (await states.Read(cancel)).Then<SizedModel>(known => new SizedModel(
            found,
            known.Shop,
            known.State,
            known.State.Models[model]
        ));
    }

    private static Result<JointSizingView> Jointly(SizedModel shop, GradeNeed need, double confidence, BlanksFrom from)
    {
        if (!JointSizer.IsSmall(need))
        {
            return Refusal.Invalid("need", "These are too many to size at once.", "fewer strengths, or fewer reeds");
        }

        var yields = shop.Yields(from);
        var steps = shop.CountedSteps(from);
        var sizer = new JointSizer(yields, steps, need, MostBlanksOfTwo);
        var strengths = need.Parts.SelectMany(part => part.Accepted).Order().ToArray();
        Strength[] aims =
        [
            .. strengths
                .Select(strength => AimChoice.AimFor(yields, strength, shop.QuartersBetweenGrades).Aim)
                .Distinct(),
        ];
        var found = sizer.Smallest(aims, confidence);
        var kept = yields.Along(steps).Mean;
        return new JointSizingView(
            [.. (found?.Batches ?? []).Select(batch => new AimedBatchView(batch.Aim, batch.Blanks))],
            found?.Blanks,
            found?.Chance,
            found is null
                ? []
                :
                [
                    .. strengths.Select(strength => new ExpectedView(
                        strength,
                        found.Batches.Sum(batch =>
                            batch.Blanks * kept * yields.Grades(batch.Aim).Share(new HashSet<Strength> { strength })
                        )
                    )),
                ]
        );
    }
}

/// <summary>A model as it is sized: what is known of it and what there is to make it from.</summary>
internal sealed record SizedModel(ReedModel Model, ShopSettings Shop, ShopState State, ModelSupply Supply)
{
    public int QuartersBetweenGrades => Shop.QuartersBetweenGrades;

    public int FirstStep(BlanksFrom from) => from == BlanksFrom.Shelf ? Model.Route.FirstFinishingStep : 1;

    public IReadOnlyList<string> CountedSteps(BlanksFrom from) =>
        Model.Route.CountedSteps(FirstStep(from), Model.Route.Steps.Count);

    /// <summary>Of the lot that would be used first.</summary>
    public YieldEstimate Yields(BlanksFrom from) =>
        Supply.Yields(
            from == BlanksFrom.Shelf
                ? Supply.Shelf.Select(rested => rested.Lot).FirstOrDefault(lot => lot.Length > 0)
                : Supply.Cane.Select(lot => lot.Lot).FirstOrDefault()
        );
}

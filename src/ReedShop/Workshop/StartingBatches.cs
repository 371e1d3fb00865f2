using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>Starts batches that no order asked for.</summary>
public sealed class StartingBatches(JournalStore journal)
{
    public Result<Batch> Start(BenchFacts facts, BatchWish wish)
    {
        if (!facts.Models.TryGetValue(wish.Model, out var model))
        {
            return Refusal.Invalid("model", $"There is no model {wish.Model}.", string.Join(", ", facts.Models.Keys));
        }

        if (wish.Blanks < 1 || wish.Blanks > facts.Shop.MostBlanksPerBatch)
        {
            return Refusal.Invalid("blanks", "The blanks cannot be used.", $"1 to {facts.Shop.MostBlanksPerBatch}");
        }

        if (wish.Aim is null && (wish.FromShelf || model.Route.FirstFinishingStep == 1))
        {
            return Refusal.Invalid("aim", "A batch that is finished needs an aim.", "a strength such as 3.5");
        }

        return Source(facts, wish) is { } source
            ? Start(facts, wish, model.Route, source)
            : Refusal.Invalid("blanks", "There are not so many blanks.", Allowed(facts, wish));
    }

    private Batch Start(BenchFacts facts, BatchWish wish, ReedRoute route, BlankSource source)
    {
        var batch = facts.NewBatch(
            wish.Model,
            source.Lot,
            wish.Aim,
            source.FirstStep,
            wish.Aim is null ? route.FirstFinishingStep - 1 : route.Steps.Count,
            wish.Blanks
        );
        batch.NotBefore = facts.Today.AddDays(Math.Max(0, source.NotBeforeDay - BlankSource.Tomorrow));
        Blanks.Claim(facts, batch);
        journal.Write("owner", $"batch {batch.Number}", $"planned, {batch.Started} blanks of {batch.Model}");
        return batch;
    }

    private static BlankSource? Source(BenchFacts facts, BatchWish wish) =>
        Sources(facts, wish).FirstOrDefault(source => source.Blanks >= wish.Blanks);

    private static string Allowed(BenchFacts facts, BatchWish wish) =>
        Sources(facts, wish).MaxBy(source => source.Blanks) is { } most
            ? $"at most {most.Blanks} from {(most.Lot ?? "the shelf")}"
            : "cane bought, or blanks on the shelf, first";

    private static IEnumerable<BlankSource> Sources(BenchFacts facts, BatchWish wish) =>
        BlankSource
            .Of(ShopStates.Of(facts), wish.Model)
            .Where(source => source.FromShelf == wish.FromShelf)
            .Where(source => wish.CaneLot is null || source.Lot == wish.CaneLot);
}

using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

public sealed record DrawerView(string Model, Strength Strength, Condition Condition, int Count, int SpokenFor);

/// <param name="Claimed">Blanks that planned batches will take.</param>
public sealed record ShelfView(string Model, string? CaneLot, int Count, int Claimed);

/// <summary>What really lies in the drawer, counted by hand.</summary>
public sealed record DrawerCountWish(
    string Model,
    Strength Strength,
    int Count,
    Condition Condition = Condition.Tested
);

/// <summary>What really lies on the shelf, counted by hand; claimed blanks are among them.</summary>
public sealed record ShelfCountWish(string Model, int Count, string? CaneLot = null);

/// <summary>Drawer and shelf as they are counted.</summary>
public sealed class Stocktaking(Bench bench)
{
    private const int MostCount = 100_000;

    public static IReadOnlyList<DrawerView> Drawer(BenchFacts facts, IEnumerable<DrawerCount> counts) =>
        [
            .. counts
                .Where(count => count.Count != 0)
                .OrderBy(count => count.Model, StringComparer.Ordinal)
                .ThenBy(count => count.Strength)
                .Select(count => new DrawerView(
                    count.Model,
                    count.Strength,
                    count.Condition,
                    count.Count,
                    count.Condition == Condition.Tested
                        ? facts.Drawer[(count.Model, count.Strength)] - facts.DrawerFree(count.Model, count.Strength)
                        : 0
                )),
        ];

    public static IReadOnlyList<ShelfView> Shelf(BenchFacts facts) =>
        [
            .. facts
                .Shelf.Select(rested => new ShelfView(
                    rested.Key.Model,
                    rested.Key.Lot.Length == 0 ? null : rested.Key.Lot,
                    rested.Value + Claimed(facts, rested.Key.Model, rested.Key.Lot),
                    Claimed(facts, rested.Key.Model, rested.Key.Lot)
                ))
                .Where(view => view.Count != 0)
                .OrderBy(view => view.Model, StringComparer.Ordinal),
        ];

    public Task<Result<DrawerView>> CountDrawer(DrawerCountWish wish, CancellationToken cancel) =>
        bench.Change<DrawerView>(
            async (services, facts, stop) =>
            {
                if (Fault(facts, wish.Model, wish.Count) is { } fault)
                {
                    return fault;
                }

                var counts = await services.GetRequiredService<StockStore>().Drawer(stop);
                var before = counts
                    .Where(c => (c.Model, c.Strength, c.Condition) == (wish.Model, wish.Strength, wish.Condition))
                    .Sum(c => c.Count);
                facts.MoveDrawer(wish.Model, wish.Strength, wish.Count - before, "counted", wish.Condition);
                services.GetRequiredService<MakeUp>().ForLostReeds(facts, wish.Model, wish.Strength);
                services
                    .GetRequiredService<JournalStore>()
                    .Write("owner", "drawer", $"{wish.Model} {wish.Strength} counted: {before} became {wish.Count}");
                var now = new DrawerCount(wish.Model, wish.Strength, wish.Condition, wish.Count);
                return Drawer(facts, [now]) is [var view]
                    ? view
                    : new DrawerView(wish.Model, wish.Strength, wish.Condition, 0, 0);
            },
            cancel
        );

    public Task<Result<ShelfView>> CountShelf(ShelfCountWish wish, CancellationToken cancel) =>
        bench.Change<ShelfView>(
            (services, facts, _) =>
            {
                var lot = wish.CaneLot ?? "";
                var claimed = Claimed(facts, wish.Model, lot);
                var fault = Fault(facts, wish.Model, wish.Count);
                if (fault is null && wish.Count < claimed)
                {
                    fault = Refusal.Invalid(
                        "count",
                        $"Planned batches count on {claimed} of them.",
                        $"{claimed} or more"
                    );
                }

                if (fault is not null)
                {
                    return Task.FromResult<Result<ShelfView>>(fault);
                }

                var before = facts.Shelf.GetValueOrDefault((wish.Model, lot)) + claimed;
                facts.MoveShelf(wish.Model, lot, wish.Count - before, "counted");
                services
                    .GetRequiredService<JournalStore>()
                    .Write("owner", "shelf", $"{wish.Model} counted: {before} became {wish.Count}");
                return Task.FromResult<Result<ShelfView>>(new ShelfView(wish.Model, wish.CaneLot, wish.Count, claimed));
            },
            cancel
        );

    private static int Claimed(BenchFacts facts, string model, string lot) =>
        facts
            .OpenBatches.Where(batch => batch.Stage == BatchStage.Planned && batch.Model == model)
            .Where(batch => (batch.CaneLot ?? "") == lot && Blanks.AreFromShelf(facts, batch))
            .Sum(batch => batch.Blanks);

    private static Refusal? Fault(BenchFacts facts, string model, int count) =>
        !facts.Models.ContainsKey(model)
            ? Refusal.Invalid("model", $"There is no model {model}.", string.Join(", ", facts.Models.Keys))
        : count is < 0 or > MostCount ? Refusal.Invalid("count", "The count cannot be used.", $"0 to {MostCount}")
        : null;
}

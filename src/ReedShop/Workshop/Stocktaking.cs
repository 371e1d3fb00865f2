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

/// <summary>Reeds of the drawer whose tips were clipped to bring them up a quarter step.</summary>
/// <param name="From">The strength they lay at.</param>
/// <param name="CameUp">How many came up a quarter step.</param>
/// <param name="Spoiled">How many are of no use any more; the others stay where they were.</param>
/// <param name="Order">Id of the order they were clipped for, which is served first.</param>
public sealed record ClipWish(string Model, Strength From, int CameUp, int Spoiled = 0, string? Order = null);

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
                Pegging.ServeShort(facts, wish.Model);
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

    /// <summary>Reeds that came up serve who waits for them, and an extra batch that nobody began is called off.</summary>
    public Task<Result<IReadOnlyList<DrawerView>>> Clip(ClipWish wish, CancellationToken cancel) =>
        bench.Change<IReadOnlyList<DrawerView>>(
            async (services, facts, stop) =>
            {
                var to = wish.From.QuartersAway(1);
                var counts = await services.GetRequiredService<StockStore>().Drawer(stop);
                if (ClipFault(facts, wish, to, counts) is { } fault)
                {
                    return fault;
                }

                facts.MoveDrawer(wish.Model, wish.From, -(wish.CameUp + wish.Spoiled), "clipped");
                facts.MoveDrawer(wish.Model, to!.Value, wish.CameUp, "clipped");
                if (facts.Orders.FirstOrDefault(order => order.Id == wish.Order) is { } order)
                {
                    Pegging.ServeOrder(facts, order);
                }

                Pegging.ServeShort(facts, wish.Model);
                services
                    .GetRequiredService<JournalStore>()
                    .Write(
                        "owner",
                        "drawer",
                        $"{wish.Model} {wish.From} clipped: {wish.CameUp} came up, {wish.Spoiled} spoiled"
                    );
                DrawerCount[] now = [Tested(facts, wish.Model, wish.From), Tested(facts, wish.Model, to.Value)];
                return Drawer(facts, now).ToArray();
            },
            cancel
        );

    private static DrawerCount Tested(BenchFacts facts, string model, Strength strength) =>
        new(model, strength, Condition.Tested, facts.Drawer.GetValueOrDefault((model, strength)));

    private static Refusal? ClipFault(BenchFacts facts, ClipWish wish, Strength? to, IEnumerable<DrawerCount> counts)
    {
        var tested = counts
            .Where(c => (c.Model, c.Strength, c.Condition) == (wish.Model, wish.From, Condition.Tested))
            .Sum(c => c.Count);
        var free = Math.Min(tested, facts.DrawerFree(wish.Model, wish.From));
        var clipped = (long)wish.CameUp + wish.Spoiled;
        var isUsable = to is not null && wish is { CameUp: >= 0, Spoiled: >= 0 } && clipped >= 1 && clipped <= free;
        return Fault(facts, wish.Model, 0)
            ?? (
                isUsable
                    ? null
                    : Refusal.Invalid(
                        "cameUp",
                        $"{free} tested ones of {wish.From} lie free in the drawer.",
                        free < 1
                            ? "a strength of which some lie free"
                            : $"1 to {free} reeds, those that came up and those that are spoiled together"
                    )
            );
    }

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

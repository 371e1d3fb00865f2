using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

public sealed record StartingShelf(string Model, int Blanks, string? CaneLot = null);

/// <summary>A batch half-way: so many blanks, about to do a step (counted over the route from 1).</summary>
/// <param name="LastWorkedOn">The day of its last step; the nights since then count.</param>
public sealed record StartingBatch(
    string Model,
    int Blanks,
    int NextStep,
    Strength? Aim = null,
    string? CaneLot = null,
    DateOnly? LastWorkedOn = null
);

public sealed record StartingLine(string Model, Strength Strength, int Quantity);

/// <summary>A promise given before ReedShop kept the book: it carries no stated chance.</summary>
public sealed record StartingPromise(
    string BuyerName,
    string BuyerEmail,
    PostalAddress Address,
    IReadOnlyList<StartingLine> Lines,
    DateOnly ShipBy
);

/// <summary>The state on the first day: a maker starts in the middle of things.</summary>
public sealed record StartingWish(
    IReadOnlyList<DrawerCountWish> Drawer,
    IReadOnlyList<StartingShelf> Shelf,
    IReadOnlyList<StartingBatch> Batches,
    IReadOnlyList<StartingPromise> Promises
);

public sealed record StartedView(int DrawerReeds, int ShelfBlanks, int Batches, int Orders);

/// <summary>The state of the first day, whichever door it comes through.</summary>
public sealed class StartingCommands(Bench bench)
{
    public Task<Result<StartedView>> Write(StartingWish wish, CancellationToken cancel) =>
        bench.Change(
            (services, facts, stop) => services.GetRequiredService<StartingState>().Write(facts, wish, stop),
            cancel
        );
}

/// <summary>Writes the state of the first day into an empty shop.</summary>
public sealed class StartingState(OrderStore orders, BatchStore batches, JournalStore journal)
{
    public async Task<Result<StartedView>> Write(BenchFacts facts, StartingWish wish, CancellationToken cancel)
    {
        var used =
            await batches.LastRun(cancel) > 0
            || await orders.NextNumber(cancel) > 1
            || facts.Drawer.Count > 0
            || facts.Shelf.Count > 0;
        if (used)
        {
            return Refusal.Stage(
                "The shop already has batches, orders or stock.",
                "a new shop; later, count the drawer and the shelf and start batches one by one"
            );
        }

        if (StartingFaults.Of(facts, wish) is { } fault)
        {
            return fault;
        }

        foreach (var reeds in wish.Drawer)
        {
            facts.MoveDrawer(reeds.Model, reeds.Strength, reeds.Count, "first day", reeds.Condition);
        }

        foreach (var rested in wish.Shelf)
        {
            facts.MoveShelf(rested.Model, rested.CaneLot ?? "", rested.Blanks, "first day");
        }

        foreach (var batch in wish.Batches)
        {
            Write(facts, batch);
        }

        var number = 1;
        foreach (var promise in wish.Promises)
        {
            Write(facts, promise, number++);
        }

        journal.Write("owner", "shop", "starting state written");
        return new StartedView(
            wish.Drawer.Sum(reeds => reeds.Count),
            wish.Shelf.Sum(rested => rested.Blanks),
            wish.Batches.Count,
            wish.Promises.Count
        );
    }

    private static void Write(BenchFacts facts, StartingBatch wish)
    {
        var route = facts.Models[wish.Model].Route;
        var lastStep = wish.Aim is null ? route.FirstFinishingStep - 1 : route.Steps.Count;
        var firstStep = wish.NextStep < route.FirstFinishingStep ? 1 : route.FirstFinishingStep;
        var batch = facts.NewBatch(wish.Model, wish.CaneLot, wish.Aim, firstStep, lastStep, wish.Blanks);
        batch.NextStep = wish.NextStep;
        batch.Stage = BatchStage.OnBench;
        batch.LastWorkedOn = wish.LastWorkedOn;
    }

    /// <summary>Its reeds are owed by nobody yet; the bench finds them when it plans this change.</summary>
    private void Write(BenchFacts facts, StartingPromise promise, int number)
    {
        var order = new Order
        {
            Id = Links.New(),
            Number = number,
            QuoteId = Links.New(),
            Stage = OrderStage.Accepted,
            BuyerName = promise.BuyerName.Trim(),
            BuyerEmail = promise.BuyerEmail.Trim(),
            Address = promise.Address.Trimmed(),
            Lines =
            [
                .. promise.Lines.Select(
                    (line, index) =>
                        new OrderLine
                        {
                            Position = index + 1,
                            Model = line.Model,
                            Strength = line.Strength,
                            Quantity = line.Quantity,
                            UnitPriceMinor = facts.Models[line.Model].PriceMinor,
                        }
                ),
            ],
            PriceMinor = promise.Lines.Sum(line => line.Quantity * facts.Models[line.Model].PriceMinor),
            Currency = facts.Shop.Currency,
            AcceptedUtc = facts.NowUtc,
            ShipBy = promise.ShipBy,
            FirstShipBy = promise.ShipBy,
            FirstChance = 0,
            FinishBy = promise.ShipBy.AddDays(-1),
            Confidence = facts.Shop.Confidence,
            Chance = 0,
        };
        orders.Add(order);
        facts.Orders.Add(order);
        foreach (var line in order.Lines)
        {
            facts.Add(MakeUp.Unserved(order, line, line.Quantity));
        }
    }
}

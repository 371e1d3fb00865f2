using ReedShop.Cane;
using ReedShop.Catalogue;
using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;
using ReedShop.Platform;
using ReedShop.Shop;

namespace ReedShop.Workshop;

/// <summary>
/// The shop as it stands on one local day: everything the planner and the promises read. Changes made to it during a
/// command are made to the database in the same breath, so both agree when the command saves.
/// </summary>
public sealed class BenchFacts(BatchStore batchStore, StockStore stock, PlanStore plan)
{
    private readonly Dictionary<(string Model, Strength Strength), int> drawer = [];
    private readonly Dictionary<(string Model, string Lot), int> shelf = [];

    public required long Version { get; init; }

    public required DateOnly Today { get; init; }

    public required DateTime NowUtc { get; init; }

    public required ShopSettings Shop { get; init; }

    public required IReadOnlyDictionary<string, ReedModel> Models { get; init; }

    /// <summary>Open orders, earliest promise first.</summary>
    public required List<Order> Orders { get; init; }

    public required List<Batch> Batches { get; init; }

    public required List<Peg> Pegs { get; init; }

    public required List<PlannedSitting> Sittings { get; init; }

    public required PlanKey Key { get; init; }

    /// <summary>What the last draws of the shop said of each promise, by order.</summary>
    public required IReadOnlyDictionary<string, Outlook> Outlooks { get; init; }

    public required IReadOnlyList<CaneLot> Cane { get; init; }

    public required YieldEstimates Yields { get; init; }

    public required BenchHazards Hazards { get; init; }

    /// <summary>Orders that reeds of a strength would serve.</summary>
    public required IReadOnlyDictionary<(string Model, Strength Strength), ReedsOrdered> Ordered { get; init; }

    /// <summary>What was recorded today, with the model of its batch.</summary>
    public required List<(StepRecord Record, string Model)> RecordsToday { get; init; }

    /// <summary>Blanks that batches with open trays were started with, by root.</summary>
    public required IReadOnlyDictionary<string, int> StartedByRoot { get; init; }

    public required int LastRun { get; set; }

    /// <summary>How many trays each run has been split into so far, closed ones too: a number is never used twice.</summary>
    public required Dictionary<int, int> TraysOfRun { get; init; }

    /// <summary>Batches that the plan soaks and dries once more because they will have lain past their most nights.</summary>
    public HashSet<string> Again { get; set; } = [];

    /// <summary>Reeds that may be sold and lie in the drawer, spoken for or not.</summary>
    public IReadOnlyDictionary<(string Model, Strength Strength), int> Drawer => drawer;

    /// <summary>Rested blanks that no batch has claimed.</summary>
    public IReadOnlyDictionary<(string Model, string Lot), int> Shelf => shelf;

    public IEnumerable<Batch> OpenBatches => Batches.Where(batch => batch.IsOpen);

    public int DrawerFree(string model, Strength strength) =>
        drawer.GetValueOrDefault((model, strength))
        - Pegs.Where(p => p.BatchRoot is null && p.Model == model && p.Strength == strength).Sum(p => p.Quantity);

    /// <summary>Blanks worked on today, by the name of the step.</summary>
    public IReadOnlyDictionary<string, int> BlanksWorkedToday() =>
        RecordsToday
            .Where(done => Models.ContainsKey(done.Model))
            .GroupBy(done => Models[done.Model].Route[done.Record.Step].Name, StringComparer.Ordinal)
            .ToDictionary(step => step.Key, step => step.Sum(done => done.Record.Worked), StringComparer.Ordinal);

    /// <summary>Minutes a person worked today; nobody's name is the maker's.</summary>
    public int MinutesWorkedToday(string? helper) =>
        RecordsToday.Where(done => done.Record.Helper == helper).Sum(done => done.Record.WorkedMinutes);

    public Order OrderOf(Peg peg) => Orders.First(order => order.Id == peg.OrderId);

    /// <summary>Strengths that serve the line a peg belongs to.</summary>
    public IReadOnlySet<Strength> AcceptedFor(Peg peg)
    {
        var order = OrderOf(peg);
        var line = order.Lines.Single(line => line.Position == peg.LinePosition);
        return order.Ask([]).Accepted(line.Ask(line.Quantity)).ToHashSet();
    }

    /// <summary>Pegs on a batch, earliest promise first.</summary>
    public IReadOnlyList<Peg> PegsOn(string root) =>
        [.. Pegs.Where(peg => peg.BatchRoot == root).OrderBy(peg => OrderOf(peg).ShipBy).ThenBy(peg => peg.Id)];

    public void Count(IEnumerable<DrawerCount> drawerCounts, IEnumerable<ShelfCount> shelfCounts)
    {
        foreach (var reeds in drawerCounts.Where(c => c.Condition is Condition.Unplayed or Condition.Tested))
        {
            drawer[(reeds.Model, reeds.Strength)] =
                drawer.GetValueOrDefault((reeds.Model, reeds.Strength)) + reeds.Count;
        }

        foreach (var blanks in shelfCounts)
        {
            shelf[(blanks.Model, blanks.CaneLot)] = blanks.Count;
        }
    }

    public void Add(Batch batch)
    {
        Batches.Add(batch);
        batchStore.Add(batch);
    }

    public void Remove(Batch batch)
    {
        Batches.Remove(batch);
        batchStore.Remove(batch);
    }

    public void Add(Peg peg)
    {
        Pegs.Add(peg);
        stock.Add(peg);
    }

    public void Remove(Peg peg)
    {
        Pegs.Remove(peg);
        stock.Remove(peg);
    }

    public void Add(PlannedSitting sitting)
    {
        Sittings.Add(sitting);
        plan.Add(sitting);
    }

    public void Remove(PlannedSitting sitting)
    {
        Sittings.Remove(sitting);
        plan.Remove(sitting);
    }

    public void MoveDrawer(
        string model,
        Strength strength,
        int change,
        string why,
        Condition condition = Condition.Tested
    )
    {
        stock.MoveDrawer(model, strength, condition, change, why);
        if (condition is Condition.Unplayed or Condition.Tested)
        {
            drawer[(model, strength)] = drawer.GetValueOrDefault((model, strength)) + change;
        }
    }

    public void MoveShelf(string model, string lot, int change, string why, string? batchId = null)
    {
        stock.MoveShelf(model, lot, change, why, batchId);
        shelf[(model, lot)] = shelf.GetValueOrDefault((model, lot)) + change;
    }

    public Batch NewBatch(string model, string? lot, Strength? aim, int firstStep, int lastStep, int blanks)
    {
        var id = Links.New();
        LastRun++;
        var batch = new Batch
        {
            Id = id,
            Run = LastRun,
            Number = LastRun.ToString(System.Globalization.CultureInfo.InvariantCulture),
            Root = id,
            Model = model,
            CaneLot = lot,
            Aim = aim,
            FirstStep = firstStep,
            LastStep = lastStep,
            NextStep = firstStep,
            Started = blanks,
            Blanks = blanks,
            Stage = BatchStage.Planned,
            PlannedOn = Today,
        };
        Add(batch);
        return batch;
    }
}

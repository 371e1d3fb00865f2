using ReedShop.Planning;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>An accepted order.</summary>
internal sealed class TrialOrder(Wish wish, DateOnly orderedOn, Promise promise)
{
    public Wish Wish { get; } = wish;

    public DateOnly OrderedOn { get; } = orderedOn;

    public DateOnly ShipBy { get; } = promise.ShipBy;

    public double Chance { get; } = promise.Chance;

    public double FirstTry { get; } = promise.FirstTry;

    public DateOnly FinishBy { get; set; } = promise.FinishBy;

    /// <summary>Whether reeds came up short and had to be made again.</summary>
    public bool CameUpShort { get; set; }

    public DateOnly? ReadyOn { get; set; }

    public DateOnly? ShippedOn { get; set; }

    public PromiseRequest Request => Wish.Request;
}

/// <summary>Reeds of an order line that a batch is to give; no batch where nothing makes them yet.</summary>
internal sealed class TrialPeg(TrialOrder order, int line, TrialBatch? batch, int quantity, double cover)
{
    public TrialOrder Order { get; } = order;

    public int LineNumber { get; } = line;

    public TrialBatch? Batch { get; } = batch;

    public int Quantity { get; set; } = quantity;

    public double Cover { get; } = cover;

    public PromiseLine Line => Order.Request.Lines[LineNumber];
}

/// <summary>Blanks started together.</summary>
/// <param name="Address">Where nature finds it.</param>
internal sealed record TrialBatch(int Number, ulong Address, TrialModel Model, string Lot, Strength Aim, int Started)
{
    public string Id => FormattableString.Invariant($"{Number}");

    public List<TrialTray> Trays { get; } = [];

    public List<BenchRecord> Records { get; } = [];

    /// <summary>Finished reeds, by where they landed.</summary>
    public Dictionary<Strength, int> Landed { get; } = [];

    public IEnumerable<TrialTray> Open => Trays.Where(tray => tray.Blanks > 0);

    public int Alive => Trays.Sum(tray => tray.Blanks);

    public ReedRoute Route => Model.Route;
}

/// <summary>Blanks of a batch that are worked together. A tray without blanks is closed.</summary>
internal sealed class TrialTray(TrialBatch batch, int number, int blanks, int nextStep, DateOnly notBefore)
{
    public TrialBatch Batch { get; } = batch;

    public int Number { get; } = number;

    public string Id { get; } = FormattableString.Invariant($"{batch.Number}.{number}");

    public int Blanks { get; set; } = blanks;

    public int NextStep { get; set; } = nextStep;

    public int? RedoOf { get; set; }

    public DateOnly NotBefore { get; } = notBefore;

    public DateOnly? LastWorkedOn { get; set; }

    public int DampNights { get; set; }

    /// <summary>The planned day of each sitting not yet done, by its last step and part.</summary>
    public Dictionary<(int LastStep, int Part), DateOnly> Days { get; set; } = [];

    public TrayAddress Address => new(Batch.Address, Batch.Model.Name, Batch.Lot, Number);
}

internal sealed class CaneStore(string name, string model, DateOnly seasonedFrom, int blanks)
{
    public string Name { get; } = name;

    public string Model { get; } = model;

    public DateOnly SeasonedFrom { get; } = seasonedFrom;

    public int BlanksLeft { get; set; } = blanks;
}

/// <summary>All that one shop has written down. Reeds of the drawer that are spoken for have left it.</summary>
internal sealed class Book(Premises premises)
{
    private const int BlanksOfALot = 500;

    public Premises Premises { get; set; } = premises;

    public DateOnly Today { get; set; }

    /// <summary>Once the evening is over, nothing more is worked today.</summary>
    public bool EveningIsOver { get; set; }

    public List<TrialOrder> Orders { get; } = [];

    public List<TrialPeg> Pegs { get; } = [];

    public List<TrialBatch> Batches { get; } = [];

    public List<CaneStore> Cane { get; } = [];

    public Dictionary<(string Model, Strength Strength), int> Drawer { get; } = [];

    public List<BatchGrades> Grades { get; } = [];

    public List<RackNight> Nights { get; } = [];

    public List<PlannedEvening> Evenings { get; } = [];

    /// <summary>How many records the estimates can read.</summary>
    public int HistoryRecords { get; set; }

    /// <summary>Whether a new plan may be needed.</summary>
    public bool HasNews { get; set; }

    /// <summary>Why no day was found, wish by wish.</summary>
    public List<NoPromiseReason> Refused { get; } = [];

    public int BlanksStarted => Batches.Sum(batch => batch.Started);

    public int EveningsUsed { get; set; }

    /// <summary>From when blanks could have been worked to when they were, by day.</summary>
    public List<Stay> BenchWaits { get; } = [];

    public IEnumerable<TrialTray> OpenTrays => Batches.SelectMany(batch => batch.Open);

    public IEnumerable<TrialOrder> OpenOrders => Orders.Where(order => order.ShippedOn is null);

    /// <summary>A lot of seasoned cane, numbered after those bought before it.</summary>
    public CaneStore BuyLot(string model)
    {
        var number = 1 + Cane.Count(lot => lot.Model == model);
        var lot = new CaneStore(FormattableString.Invariant($"{model} lot {number}"), model, Today, BlanksOfALot);
        Cane.Add(lot);
        return lot;
    }

    /// <summary>Pegs on a batch, or those that nothing makes yet; earliest promise first.</summary>
    public IReadOnlyList<TrialPeg> PegsOn(TrialBatch? batch) =>
        [
            .. Pegs.Where(peg => peg.Batch == batch)
                .OrderBy(peg => peg.Order.ShipBy)
                .ThenBy(peg => peg.Order.Wish.Number),
        ];
}

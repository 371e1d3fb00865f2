using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Platform.Layout;

namespace ReedShop.Orders;

/// <summary>Where an order stands. <see cref="OrderMoves"/> lists the allowed moves.</summary>
public enum OrderStage
{
    AwaitingPayment,
    Accepted,
    OnBench,
    Ready,
    Shipped,
    Cancelled,
    Expired,
}

public enum OrderMove
{
    StartBench,
    CompleteReeds,
    LoseReeds,
    Ship,
    ShipPart,
    Cancel,
    Expire,
    Settle,
    SettleLate,
}

/// <summary>The table of allowed moves, read by the code and shown in the docs.</summary>
public static class OrderMoves
{
    public static IReadOnlyList<(OrderMove Move, OrderStage From, OrderStage To)> All { get; } =
    [
        (OrderMove.Settle, OrderStage.AwaitingPayment, OrderStage.Accepted),
        (OrderMove.SettleLate, OrderStage.Expired, OrderStage.Accepted),
        (OrderMove.Expire, OrderStage.AwaitingPayment, OrderStage.Expired),
        (OrderMove.StartBench, OrderStage.Accepted, OrderStage.OnBench),
        (OrderMove.CompleteReeds, OrderStage.Accepted, OrderStage.Ready),
        (OrderMove.CompleteReeds, OrderStage.OnBench, OrderStage.Ready),
        (OrderMove.LoseReeds, OrderStage.Ready, OrderStage.Accepted),
        (OrderMove.Ship, OrderStage.Ready, OrderStage.Shipped),
        (OrderMove.ShipPart, OrderStage.Accepted, OrderStage.Accepted),
        (OrderMove.ShipPart, OrderStage.OnBench, OrderStage.OnBench),
        (OrderMove.Cancel, OrderStage.AwaitingPayment, OrderStage.Cancelled),
        (OrderMove.Cancel, OrderStage.Accepted, OrderStage.Cancelled),
        (OrderMove.Cancel, OrderStage.OnBench, OrderStage.Cancelled),
        (OrderMove.Cancel, OrderStage.Ready, OrderStage.Cancelled),
    ];

    public static OrderStage? To(OrderMove move, OrderStage from) =>
        All.Where(row => row.Move == move && row.From == from).Select(row => (OrderStage?)row.To).SingleOrDefault();

    /// <summary>The stages a move may leave, for refusals.</summary>
    public static string AllowedFrom(OrderMove move) =>
        string.Join(", ", All.Where(row => row.Move == move).Select(row => Words(row.From)));

    public static string Words(OrderStage stage) => OrderTexts.Say[$"Stage.{stage}"];
}

public sealed class OrderLine
{
    /// <summary>From 1, in the order the buyer wrote the lines.</summary>
    public required int Position { get; init; }

    public required string Model { get; init; }

    public required Strength Strength { get; init; }

    public required int Quantity { get; init; }

    public required long UnitPriceMinor { get; init; }

    /// <summary>Strengths that the buyer, when asked, said would do as well.</summary>
    public List<Strength> Also { get; set; } = [];

    /// <summary>A strength that the buyer has been asked to take and has not answered for yet.</summary>
    public Strength? Asked { get; set; }

    /// <summary>Strengths the buyer said no to: nobody is asked twice.</summary>
    public List<Strength> Declined { get; set; } = [];

    /// <summary>So many reeds of this line, as the promiser reads it.</summary>
    public PromiseLine Ask(int quantity) => new(Model, Strength, quantity) { Also = Also };
}

/// <summary>Reeds of an order that have left.</summary>
public sealed record SentReeds(string Model, Strength Strength, int Quantity);

/// <summary>A parcel that has left. An order has several where its buyer said that part is fine.</summary>
public sealed record SentParcel(DateOnly ShippedOn, string? Tracking, IReadOnlyList<SentReeds> Reeds);

/// <summary>An order that was accepted with a promise.</summary>
public sealed class Order
{
    /// <summary>Unguessable: the buyer's link is made of it, so it never goes into a log.</summary>
    public required string Id { get; init; }

    public required int Number { get; init; }

    public required string QuoteId { get; init; }

    public OrderStage Stage { get; set; }

    public required string BuyerName { get; init; }

    public required string BuyerEmail { get; init; }

    public required PostalAddress Address { get; init; }

    /// <summary>The language and country the order was placed in, such as "de-DE": letters to its buyer are written so.</summary>
    public string Language { get; init; } = Languages.Usual.Name;

    public required List<OrderLine> Lines { get; init; }

    /// <summary>The whole of it: the reeds less what a voucher took off, and shipping.</summary>
    public required long PriceMinor { get; init; }

    /// <summary>What shipping it cost when it was accepted; null where that is a part of the reeds' price.</summary>
    public long? ShippingMinor { get; init; }

    /// <summary>What its voucher took off the reeds.</summary>
    public long DiscountMinor { get; init; }

    /// <summary>The code of the voucher it was ordered with.</summary>
    public string? Voucher { get; init; }

    public OrderPrice Price => new(PriceMinor - (ShippingMinor ?? 0) + DiscountMinor, ShippingMinor, DiscountMinor);

    public required string Currency { get; init; }

    public required DateTime AcceptedUtc { get; init; }

    /// <summary>The promised ship date.</summary>
    public required DateOnly ShipBy { get; set; }

    /// <summary>The date that was promised first: the record of kept promises is measured by it.</summary>
    public required DateOnly FirstShipBy { get; init; }

    /// <summary>The chance that was told with it.</summary>
    public required double FirstChance { get; init; }

    /// <summary>When the promised date was last moved; the buyer was told at once.</summary>
    public DateTime? MovedUtc { get; set; }

    /// <summary>The first promised date stood badly and was moved: it counts as not kept, whatever comes of the order.</summary>
    public bool WasGivenUp { get; set; }

    /// <summary>
    /// The maker chose a date of his own though nothing stood in the way of the promised one: it says nothing of how well
    /// promises are kept.
    /// </summary>
    public bool IsOwnDate { get; set; }

    public DateOnly? CancelledOn { get; set; }

    /// <summary>The day of the first sitting of a batch that makes its reeds: until then a buyer cancels at no cost.</summary>
    public DateOnly? BegunOn { get; set; }

    /// <summary>After this day the parcel is of no use to the buyer, for a recital perhaps.</summary>
    public DateOnly? NeedBy { get; init; }

    /// <summary>The buyer takes the reeds in several parcels, as they come.</summary>
    public bool PartsAreFine { get; init; }

    public List<SentParcel> Parcels { get; set; } = [];

    /// <summary>Reeds the buyer asked to exchange for another strength, in the order of asking.</summary>
    public List<StrengthExchange> Exchanges { get; init; } = [];

    /// <summary>
    /// The day the planner wants the reeds done by, so that the stated chance holds. It is no promise: the bench renews
    /// it with the plan.
    /// </summary>
    public required DateOnly FinishBy { get; set; }

    /// <summary>The chance that was asked for.</summary>
    public required double Confidence { get; init; }

    /// <summary>The chance of shipping by ShipBy that was stated with the promise.</summary>
    public required double Chance { get; set; }

    /// <summary>The part of that chance that needed no extra batch: the planner's due day rests on it.</summary>
    public double FirstTry { get; set; }

    /// <summary>Half steps either side of the strength that the buyer accepts.</summary>
    public int Neighbours { get; init; }

    /// <summary>Reeds of it were missing on the way, and others had to be found or made.</summary>
    public bool CameShort { get; set; }

    /// <summary>Nothing of it leaves before all is paid; otherwise the invoice comes with the parcel.</summary>
    public bool PaysBeforeShipping { get; init; }

    public DateTime? PaidUtc { get; set; }

    public DateOnly? ShippedOn { get; set; }

    public string? Tracking { get; set; }

    /// <summary>What the buyer answered after a moved date: wait, change or cancel.</summary>
    public string? Reply { get; set; }

    /// <summary>What the buyer said besides.</summary>
    public string? ReplyNote { get; set; }

    public int Version { get; set; }

    /// <summary>Some or all of its lines, as the promiser reads them.</summary>
    public PromiseRequest Ask(IReadOnlyList<PromiseLine> lines) => new(lines, Confidence, Neighbours);

    public bool IsOpen =>
        Stage is OrderStage.AwaitingPayment or OrderStage.Accepted or OrderStage.OnBench or OrderStage.Ready;
}

/// <summary>What an order can be found by.</summary>
public sealed record OrderName(
    string Id,
    int Number,
    OrderStage Status,
    string BuyerName,
    string BuyerEmail,
    DateOnly ShipBy
);

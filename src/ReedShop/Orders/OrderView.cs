using ReedShop.Planning;
using ReedShop.Platform.Http;

namespace ReedShop.Orders;

/// <param name="Also">Strengths that the buyer said would do as well; missing where none was asked for.</param>
/// <param name="Asked">A strength the buyer is asked to take; missing where nothing is asked.</param>
public sealed record OrderLineView(
    string Model,
    Strength Strength,
    int Quantity,
    IReadOnlyList<Strength>? Also = null,
    Strength? Asked = null
);

/// <summary>Unopened reeds the buyer would send back for another strength.</summary>
/// <param name="Number">From 1 for each order.</param>
/// <param name="Answer">The maker's sentence; missing until there is one.</param>
public sealed record ExchangeView(
    int Number,
    string Model,
    Strength Strength,
    Strength To,
    int Quantity,
    ExchangeStage Status,
    string? Answer = null
)
{
    public static ExchangeView Of(StrengthExchange exchange) =>
        new(
            exchange.Number,
            exchange.Model,
            exchange.Strength,
            exchange.To,
            exchange.Quantity,
            exchange.Stage,
            exchange.Answer
        );
}

/// <summary>An order as its buyer sees it.</summary>
/// <param name="Chance">The chance of shipping by <paramref name="ShipBy"/> that was stated with the promise.</param>
/// <param name="FirstShipBy">What was promised first; missing where the date never moved.</param>
/// <param name="NeedBy">The day after which the buyer has no use for it.</param>
/// <param name="Parcels">What has left already; missing while nothing has.</param>
/// <param name="ReplyNote">What the buyer said with the answer to a moved date.</param>
/// <param name="Nights">Told to its buyer; missing where no batch makes its reeds.</param>
/// <param name="Language">Of the letters to its buyer, such as "de-DE".</param>
/// <param name="Exchanges">What its buyer asked to exchange; missing where nothing.</param>
/// <param name="Parts">What the price is made of.</param>
/// <param name="PayUrl">Where to pay; missing when the shop sends an invoice.</param>
public sealed record OrderView(
    string Id,
    int Number,
    OrderStage Status,
    DateOnly ShipBy,
    string StatusUrl,
    double Confidence,
    double Chance,
    Money Price,
    IReadOnlyList<OrderLineView> Lines,
    DateTime AcceptedAt,
    bool Paid,
    DateOnly? ShippedOn,
    string? Tracking,
    string? Reply,
    DateOnly? FirstShipBy = null,
    DateTime? MovedAt = null,
    DateOnly? NeedBy = null,
    bool PartsAreFine = false,
    IReadOnlyList<SentParcel>? Parcels = null,
    string? ReplyNote = null,
    string? PayUrl = null,
    NightsView? Nights = null,
    string Language = "en-GB",
    IReadOnlyList<ExchangeView>? Exchanges = null,
    PriceParts? Parts = null
)
{
    public static OrderView Of(Order order) =>
        new(
            order.Id,
            order.Number,
            order.Stage,
            order.ShipBy,
            $"/orders/{order.Id}",
            order.Confidence,
            order.Chance,
            new Money(order.PriceMinor, order.Currency),
            [.. order.Lines.OrderBy(line => line.Position).Select(LineOf)],
            order.AcceptedUtc,
            order.PaidUtc is not null,
            order.ShippedOn,
            order.Tracking,
            order.Reply,
            order.MovedUtc is null ? null : order.FirstShipBy,
            order.MovedUtc,
            order.NeedBy,
            order.PartsAreFine,
            order.Parcels.Count == 0 ? null : order.Parcels,
            order.ReplyNote,
            Language: order.Language,
            Exchanges: order.Exchanges.Count == 0
                ? null
                : [.. order.Exchanges.OrderBy(exchange => exchange.Number).Select(ExchangeView.Of)],
            Parts: PriceParts.Of(order.Price, order.Voucher, order.Currency)
        );

    private static OrderLineView LineOf(OrderLine line) =>
        new(line.Model, line.Strength, line.Quantity, line.Also.Count == 0 ? null : line.Also, line.Asked);
}

/// <summary>An order as the owner sees it: with the buyer.</summary>
public sealed record OwnerOrderView(
    OrderView Order,
    string BuyerName,
    string BuyerEmail,
    PostalAddress Address,
    DateOnly FinishBy,
    int Version = 0
)
{
    public static OwnerOrderView Of(Order order) =>
        new(OrderView.Of(order), order.BuyerName, order.BuyerEmail, order.Address, order.FinishBy, order.Version);
}

using ReedShop.Planning;
using ReedShop.Platform.Http;

namespace ReedShop.Orders;

/// <param name="Also">Strengths that the buyer said would do as well.</param>
/// <param name="Asked">A strength the buyer is asked to take; missing where nothing is asked.</param>
public sealed record OrderLineView(
    string Model,
    Strength Strength,
    int Quantity,
    IReadOnlyList<Strength> Also,
    Strength? Asked
);

/// <summary>An order as its buyer sees it.</summary>
/// <param name="Chance">The chance of shipping by <paramref name="ShipBy"/> that was stated with the promise.</param>
/// <param name="FirstShipBy">What was promised first; another day than <paramref name="ShipBy"/> where the date was moved.</param>
/// <param name="NeedBy">The day after which the buyer has no use for it.</param>
/// <param name="Parcels">What has left already.</param>
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
    DateOnly FirstShipBy,
    DateTime? MovedAt,
    DateOnly? NeedBy,
    bool PartsAreFine,
    IReadOnlyList<SentParcel> Parcels,
    string? PayUrl = null
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
            [
                .. order
                    .Lines.OrderBy(line => line.Position)
                    .Select(line => new OrderLineView(line.Model, line.Strength, line.Quantity, line.Also, line.Asked)),
            ],
            order.AcceptedUtc,
            order.PaidUtc is not null,
            order.ShippedOn,
            order.Tracking,
            order.Reply,
            order.FirstShipBy,
            order.MovedUtc,
            order.NeedBy,
            order.PartsAreFine,
            order.Parcels
        );
}

/// <summary>An order as the owner sees it: with the buyer.</summary>
public sealed record OwnerOrderView(
    OrderView Order,
    string BuyerName,
    string BuyerEmail,
    PostalAddress Address,
    DateOnly FinishBy,
    int Version
)
{
    public static OwnerOrderView Of(Order order) =>
        new(OrderView.Of(order), order.BuyerName, order.BuyerEmail, order.Address, order.FinishBy, order.Version);
}

using ReedShop.Shop;

namespace ReedShop.Orders;

/// <summary>What buyers are told about their order, in plain text.</summary>
public static class OrderMessages
{
    /// <summary>Kinds of letters that go to the buyer of an order, and are shown on its page.</summary>
    public static IReadOnlyCollection<string> ToBuyers { get; } =
    [
        "order-confirmed",
        "date-moved",
        "strength-asked",
        "part-shipped",
        "order-shipped",
        "order-cancelled",
        "payment-wanted",
        "payment-expired",
        "paid-too-late",
        "balance-wanted",
        "refunded",
    ];

    /// <param name="page">Address of the order's own page, the only key the buyer has.</param>
    public static (string Title, string Text) Confirmed(Order order, ShopSettings shop, string page) =>
        (
            $"Order {order.Number} at {shop.Name}: to ship by {order.ShipBy:yyyy-MM-dd}",
            FormattableString.Invariant(
                $"""
                Dear {order.BuyerName},

                thank you for your order {order.Number}:
                {Lines(order)}

                {Promised(order)} Dates like this are kept about
                {(int)Math.Floor(order.Chance * 100)} times in 100; you are told at once should it move.
                An invoice comes with the parcel. The page of your order, for you alone:
                {page}

                {shop.Name}
                """
            )
        );

    /// <param name="isForced">The old day could hardly be kept; otherwise the maker chose another.</param>
    /// <param name="note">What the maker wants to say besides.</param>
    /// <param name="page">Where the buyer answers.</param>
    public static (string Title, string Text) Moved(
        Order order,
        DateOnly from,
        bool isForced,
        string? note,
        ShopSettings shop,
        string page
    ) =>
        (
            $"Order {order.Number} at {shop.Name}: it will ship by {order.ShipBy:yyyy-MM-dd} instead of {from:yyyy-MM-dd}",
            FormattableString.Invariant(
                $"""
                Dear {order.BuyerName},

                your order {order.Number} was promised to ship by {from:dddd d MMMM yyyy}.
                {(order.ShipBy < from ? "It is to be ready sooner." : isForced ? "That day is less likely than we told you, and we are sorry." : "We are moving it, and are sorry.")}
                It will ship by {order.ShipBy:dddd d MMMM yyyy}; this date is kept about {(int)
                    Math.Floor(order.Chance * 100)} times in 100.
                {(order.NeedBy < order.ShipBy ? $"That is after {order.NeedBy:d MMMM}, the day you named.\n" : "")}{(
                    note is null ? "" : $"{note}\n"
                )}
                You may wait, ask for something else, or cancel{(order.Parcels.Count == 0 ? " at no cost" : " what has not left yet")}. Please say so here; until you do, your
                reeds stay in work for the new date:
                {page}

                {shop.Name}
                """
            )
        );

    /// <param name="page">Where the buyer answers.</param>
    public static (string Title, string Text) StrengthAsked(
        Order order,
        OrderLine line,
        ShopSettings shop,
        string page
    ) =>
        (
            $"Order {order.Number} at {shop.Name}: would {line.Asked} do as well?",
            $"""
            Dear {order.BuyerName},

            your order {order.Number} is promised by {order.ShipBy:yyyy-MM-dd}, and that is more likely to be kept if some of
            the {line.Quantity} of {line.Strength} ({line.Model}) may be {line.Asked}. Would they do? You lose nothing by saying no.
            Please answer here:
            {page}

            {shop.Name}
            """
        );

    public static (string Title, string Text) PartShipped(Order order, ShopSettings shop) =>
        (
            $"Order {order.Number} at {shop.Name}: a parcel of it has been shipped",
            FormattableString.Invariant(
                $"""
                Dear {order.BuyerName},

                part of your order {order.Number} left on {order.Parcels[^1].ShippedOn:dddd d MMMM yyyy}:
                {string.Join('\n', order.Parcels[^1].Reeds.Select(r => $"  {r.Quantity} of {r.Strength} ({r.Model})"))}
                {(order.Parcels[^1].Tracking is { } tracking ? $"\nTracking: {tracking}\n" : "")}
                The rest is promised to ship by {order.ShipBy:dddd d MMMM yyyy}.

                {shop.Name}
                """
            )
        );

    public static (string Title, string Text) Shipped(Order order, ShopSettings shop) =>
        (
            $"Order {order.Number} at {shop.Name} has been shipped",
            FormattableString.Invariant(
                $"""
                Dear {order.BuyerName},

                your order {order.Number} left on {order.ShippedOn:dddd d MMMM yyyy}:
                {Lines(order)}
                {(order.Tracking is { } tracking ? $"\nTracking: {tracking}\n" : "")}
                Break new reeds in slowly, and keep them dry between sessions.

                {shop.Name}
                """
            )
        );

    public static (string Title, string Text) Cancelled(Order order, ShopSettings shop) =>
        (
            $"Order {order.Number} at {shop.Name} is cancelled",
            $"""
            Dear {order.BuyerName},

            your order {order.Number} is cancelled. {(
                order.Parcels.Count == 0
                    ? "Nothing will be sent."
                    : order.PaidUtc is null ? "Nothing more will be sent; what has left is yours to pay." : "Nothing more will be sent; what you paid for and does not come is settled with you."
            )}

            {shop.Name}
            """
        );

    private static string Promised(Order order) =>
        FormattableString.Invariant(
            $"{(order.PartsAreFine ? "What lies ready leaves first, in a parcel of its own; all of it" : "It")} is promised to ship by {order.ShipBy:dddd d MMMM yyyy}."
        );

    private static string Lines(Order order) =>
        string.Join(
            '\n',
            order
                .Lines.OrderBy(line => line.Position)
                .Select(l => $"  {l.Quantity} of {l.Strength} ({l.Model}){Either(order)}")
        );

    private static string Either(Order order) =>
        order.Neighbours switch
        {
            0 => "",
            1 => ", a half strength either side will do",
            _ => ", a whole strength either side will do",
        };
}

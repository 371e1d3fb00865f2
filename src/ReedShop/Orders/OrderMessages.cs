using ReedShop.Shop;

namespace ReedShop.Orders;

/// <summary>What buyers are told about their order, in plain text.</summary>
public static class OrderMessages
{
    /// <param name="page">Address of the order's own page, the only key the buyer has.</param>
    public static (string Title, string Text) Confirmed(Order order, ShopSettings shop, string page) =>
        (
            $"Order {order.Number} at {shop.Name}: to ship by {order.ShipBy:yyyy-MM-dd}",
            FormattableString.Invariant(
                $"""
                Dear {order.BuyerName},

                thank you for your order {order.Number}:
                {Lines(order)}

                It is promised to ship by {order.ShipBy:dddd d MMMM yyyy}. Dates like this are kept about
                {(int)Math.Floor(order.Chance * 100)} times in 100; you are told at once should it move.
                An invoice comes with the parcel. The page of your order, for you alone:
                {page}

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

            your order {order.Number} is cancelled. Nothing will be sent.

            {shop.Name}
            """
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

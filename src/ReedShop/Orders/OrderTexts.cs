using ReedShop.Platform.Layout;

namespace ReedShop.Orders;

/// <summary>The order's own page.</summary>
public static class OrderTexts
{
    public static readonly Texts Say = new(typeof(OrderTexts));
}

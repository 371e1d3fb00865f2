using ReedShop.Platform.Layout;

namespace ReedShop.Checkout;

/// <summary>The order form and its offer.</summary>
internal static class CheckoutTexts
{
    public static readonly Texts Say = new(typeof(CheckoutTexts));
}

using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

/// <summary>What buyers read about money on the page of their order.</summary>
internal static class PaymentTexts
{
    public static readonly Texts Say = new(typeof(PaymentTexts));
}

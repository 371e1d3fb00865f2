using ReedShop.Platform.Layout;

namespace ReedShop.Orders;

/// <summary>Letters to buyers.</summary>
internal static class LetterTexts
{
    public static readonly Texts Say = new(typeof(LetterTexts));
}

using ReedShop.Platform.Layout;

namespace ReedShop.Quotes;

/// <summary>Reasons for a date, what would be sooner, and why there is none.</summary>
internal static class QuoteTexts
{
    public static readonly Texts Say = new(typeof(QuoteTexts));
}

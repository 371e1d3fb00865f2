using ReedShop.Platform.Layout;

namespace ReedShop.Payments;

/// <summary>Letters to buyers about money.</summary>
internal static class MoneyLetterTexts
{
    public static readonly Texts Say = new(typeof(MoneyLetterTexts));
}

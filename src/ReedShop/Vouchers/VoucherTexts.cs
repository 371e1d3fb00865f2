using ReedShop.Platform.Layout;

namespace ReedShop.Vouchers;

/// <summary>Why a code takes nothing off.</summary>
internal static class VoucherTexts
{
    public static readonly Texts Say = new(typeof(VoucherTexts));
}

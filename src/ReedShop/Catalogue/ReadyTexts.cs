using ReedShop.Platform.Layout;

namespace ReedShop.Catalogue;

/// <summary>Names in the ready routes, which are written in English like all the maker sees.</summary>
internal static class ReadyTexts
{
    public static readonly Texts Say = new(typeof(ReadyTexts));
}

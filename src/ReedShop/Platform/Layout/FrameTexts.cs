namespace ReedShop.Platform.Layout;

/// <summary>What stands around every page, how days are written, and what any page may have to refuse.</summary>
internal static class FrameTexts
{
    public static readonly Texts Say = new(typeof(FrameTexts));
}

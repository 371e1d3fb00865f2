using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Orders;

/// <summary>
/// The form of every letter to the buyer of an order: a greeting, what there is to say, the name of the shop; all of it in
/// the language the order was placed in.
/// </summary>
internal static class BuyersLetter
{
    /// <param name="paragraphs">Those that are null are left out.</param>
    public static (string Title, string Text) Of(
        Order order,
        ShopSettings shop,
        Func<string> title,
        Func<string?[]> paragraphs
    ) =>
        Languages.In(
            order.Language,
            () =>
                (
                    title(),
                    string.Join(
                        "\n\n",
                        [LetterTexts.Say["Dear", order.BuyerName], .. paragraphs().OfType<string>(), shop.Name]
                    ) + "\n"
                )
        );
}

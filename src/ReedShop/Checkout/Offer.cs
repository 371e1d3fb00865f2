using ReedShop.Platform.Http;
using ReedShop.Quotes;

namespace ReedShop.Checkout;

/// <summary>A quote as the buyer sees it before ordering.</summary>
/// <param name="Because">Empty when the quote is read back: the reasons are told once, when it is made.</param>
public sealed record Offer(
    string QuoteId,
    DateOnly ShipBy,
    double Chance,
    Money Price,
    IReadOnlyList<string> Because,
    IReadOnlyList<SoonerView> Sooner,
    IReadOnlyList<ParcelView>? Parcels,
    NeedByView? NeedBy
)
{
    public static Offer Of(QuoteView quote) =>
        new(
            quote.Id ?? "",
            quote.ShipBy,
            quote.Chance,
            quote.Price,
            quote.Because,
            quote.Sooner,
            quote.Parcels,
            quote.NeedBy
        );

    public static Offer Of(Quote quote) =>
        new(quote.Id, quote.ShipBy, quote.Chance, new Money(quote.PriceMinor, quote.Currency), [], [], null, null);
}

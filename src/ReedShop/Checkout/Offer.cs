using ReedShop.Orders;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Quotes;

namespace ReedShop.Checkout;

/// <summary>A quote as the buyer sees it before ordering.</summary>
public sealed record Offer(
    string QuoteId,
    DateOnly ShipBy,
    double Chance,
    Money Price,
    IReadOnlyList<string> Because,
    IReadOnlyList<SoonerView> Sooner,
    IReadOnlyList<ParcelView>? Parcels,
    NeedByView? NeedBy,
    PriceParts? Parts,
    string? Country
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
            quote.NeedBy,
            quote.Parts,
            quote.Country
        );

    /// <summary>Reasons that were told in another language are left out; days and chances are said in any.</summary>
    public static Offer Of(Quote quote)
    {
        var told = quote.Reasons;
        var isReadable = told.Language == Words.Culture.Name;
        return new(
            quote.Id,
            quote.ShipBy,
            quote.Chance,
            new Money(quote.Price.TotalMinor, quote.Currency),
            isReadable ? told.Because : [],
            isReadable ? told.Sooner : [],
            told.Parcels,
            told.NeedBy,
            PriceParts.Of(quote.Price, quote.Request.Voucher?.Code, quote.Currency),
            quote.Request.Country
        );
    }
}

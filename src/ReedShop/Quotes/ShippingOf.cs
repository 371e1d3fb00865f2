using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Shop;
using static ReedShop.Quotes.QuoteTexts;

namespace ReedShop.Quotes;

/// <summary>Where a parcel goes, and what that costs.</summary>
/// <param name="Country">A code of ISO 3166-1.</param>
public sealed record ShippingOf(string Country, long PriceMinor)
{
    /// <summary>Null where shipping is a part of the reeds' price, whatever country was sent.</summary>
    public static Result<ShippingOf?> Ask(
        QuoteRequest request,
        ShippingTerms terms,
        IReadOnlyDictionary<string, ReedModel> models
    )
    {
        if (!terms.AreSet)
        {
            return (ShippingOf?)null;
        }

        var place = Place(request.Country, terms);
        if (place.Refusal is { } fault)
        {
            return fault;
        }

        var (country, zone) = place.Value;
        var grams = terms.Weigh(request.Lines.Sum(line => line.Quantity * models[line.Model].GramsPerReed));
        return zone.PriceOf(grams) is { } price
            ? new ShippingOf(country, price)
            : Refusal.Invalid(
                "lines",
                Say["TooHeavy", Words.Number(grams), Countries.Name(country)],
                Say["ParcelUpTo", Words.Number(zone.MostGrams), Words.Number(terms.PackingGrams)]
            );
    }

    /// <summary>Why nothing can be sent there, whatever it weighs; null where something can.</summary>
    public static Refusal? CountryFault(string? country, ShippingTerms terms) => Place(country, terms).Refusal;

    private static Result<(string Country, ShippingZone Zone)> Place(string? typed, ShippingTerms terms) =>
        string.IsNullOrWhiteSpace(typed) ? Refused(terms, Say["WhereTo"])
        : Countries.Read(typed) is not { } country ? Refused(terms, Say["NoSuchCountry", typed.Trim()])
        : terms.ZoneOf(country) is not { } zone ? Refused(terms, Say["NotSentTo", Countries.Name(country)])
        : (country, zone);

    private static Refusal Refused(ShippingTerms terms, string detail) =>
        Refusal.Invalid(
            "country",
            detail,
            terms.Zones.Any(zone => zone.IsEverywhereElse)
                ? Say["AnyCountry"]
                : string.Join(
                    ", ",
                    Countries.Named(terms.Covered).Select(country => Words.Named(country.Name, country.Code))
                )
        );
}

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

        if (string.IsNullOrWhiteSpace(request.Country))
        {
            return Refused(terms, Say["WhereTo"]);
        }

        if (Countries.Read(request.Country) is not { } country)
        {
            return Refused(terms, Say["NoSuchCountry", request.Country.Trim()]);
        }

        if (terms.ZoneOf(country) is not { } zone)
        {
            return Refused(terms, Say["NotSentTo", Countries.Name(country)]);
        }

        var grams = terms.Weigh(request.Lines.Sum(line => line.Quantity * models[line.Model].GramsPerReed));
        return zone.PriceOf(grams) is { } price
            ? new ShippingOf(country, price)
            : Refusal.Invalid(
                "lines",
                Say["TooHeavy", Words.Number(grams), Countries.Name(country)],
                Say["ParcelUpTo", Words.Number(zone.MostGrams), Words.Number(terms.PackingGrams)]
            );
    }

    private static Refusal Refused(ShippingTerms terms, string detail)
    {
        var isAny = terms.Zones.Any(zone => zone.IsEverywhereElse);
        return Refusal.Invalid(
            "country",
            detail,
            isAny
                ? Say["AnyCountry"]
                : string.Join(
                    ", ",
                    terms
                        .Covered.Select(code => Words.Named(Countries.Name(code), code))
                        .Order(StringComparer.CurrentCulture)
                )
        );
    }
}

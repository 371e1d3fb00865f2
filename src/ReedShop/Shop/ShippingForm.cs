using System.Globalization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>
/// What shipping costs as texts of a form: a place for each zone, numbered from 1, and one more while there is one. A place
/// without any text is no zone.
/// </summary>
public sealed class ShippingForm
{
    public const string Packing = ShippingTerms.PackingField;

    public const string BandsAllowed = "on each line the grams a parcel may weigh and its price, such as 100: 4.50";

    private static readonly string[] Parts = ["name", "countries", "bands"];

    private readonly IReadOnlyDictionary<string, string> texts;

    private ShippingForm(IReadOnlyDictionary<string, string> texts) => this.texts = texts;

    public string this[string name] => texts.GetValueOrDefault(name, "");

    /// <param name="place">From 1.</param>
    public static string Name(int place, string part) => FormattableString.Invariant($"zone{place}-{part}");

    public static string Elsewhere(int place) => Name(place, "elsewhere");

    /// <summary>The places that are filled, and one more.</summary>
    public IEnumerable<int> Places =>
        AllPlaces.Take(AllPlaces.LastOrDefault(place => Names(place).Any(name => this[name].Length > 0)) + 1);

    public static ShippingForm Typed(IFormCollection form) =>
        new(form.ToDictionary(field => field.Key, field => field.Value.ToString(), StringComparer.Ordinal));

    public static ShippingForm Of(ShopSettings shop)
    {
        var fields = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            [Packing] = Words.Plain(shop.Shipping.PackingGrams),
        };
        foreach (var (place, zone) in AllPlaces.Zip(shop.Shipping.Zones))
        {
            fields[Name(place, "name")] = zone.Name;
            fields[Name(place, "countries")] = string.Join(", ", zone.Countries);
            fields[Elsewhere(place)] = zone.IsEverywhereElse ? "on" : "";
            fields[Name(place, "bands")] = string.Join(
                '\n',
                zone.Bands.Select(band => $"{band.UpToGrams}: {new Money(band.PriceMinor, shop.Currency).Figure}")
            );
        }

        return new ShippingForm(fields);
    }

    /// <summary>The terms that were typed, or the first thing wrong with them by the name of its field.</summary>
    public static Result<ShippingTerms> Read(IFormCollection form, string currency)
    {
        var packing = form.Whole(Packing);
        if (packing.Refusal is { } unreadable)
        {
            return unreadable;
        }

        var (zones, places) = (new List<ShippingZone>(), new List<int>());
        foreach (var place in AllPlaces.Where(place => Names(place).Any(name => form.Text(name).Length > 0)))
        {
            var zone = ReadZone(form, place, currency);
            if (zone.Refusal is { } fault)
            {
                return fault;
            }

            zones.Add(zone.Value);
            places.Add(place);
        }

        var terms = new ShippingTerms(packing.Value ?? 0, zones);
        return terms.Fault(currency, (zone, part) => Name(places.ElementAtOrDefault(zone), part)) is { } refusal
            ? refusal
            : terms;
    }

    private static IEnumerable<string> Names(int place) =>
        Parts.Select(part => Name(place, part)).Append(Elsewhere(place));

    private static IEnumerable<int> AllPlaces => Enumerable.Range(1, ShippingTerms.MostZones);

    private static Result<ShippingZone> ReadZone(IFormCollection form, int place, string currency)
    {
        var countries = form.Text(Name(place, "countries"))
            .Split([',', ';', '\n'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        var isElsewhere = form.Text(Elsewhere(place)).Length > 0;
        return isElsewhere == countries.Length > 0
            ? Refusal.Invalid(
                Name(place, "countries"),
                isElsewhere ? "The zone names countries and is for everywhere else." : "The zone is for no country.",
                "countries such as PT, ES; or none and a tick at “everywhere else”"
            )
            : Bands(form.Text(Name(place, "bands")), Name(place, "bands"), currency)
                .Then<ShippingZone>(bands => new ShippingZone(form.Text(Name(place, "name")), countries, bands));
    }

    private static Result<IReadOnlyList<ShippingBand>> Bands(string text, string field, string currency)
    {
        var bands = new List<ShippingBand>();
        foreach (var line in text.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (
                line.Split([':', ' '], StringSplitOptions.RemoveEmptyEntries) is not [var grams, var price]
                || !int.TryParse(grams, NumberStyles.None, CultureInfo.InvariantCulture, out var upTo)
                || !Money.TryParse(price, currency, out var amount)
            )
            {
                return Refusal.Invalid(field, $"“{line}” is no weight with a price.", BandsAllowed);
            }

            bands.Add(new ShippingBand(upTo, amount.Amount));
        }

        return bands;
    }
}

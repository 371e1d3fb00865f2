using System.Text.Json.Serialization;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>What sending a parcel of up to so many grams costs, in the minor unit of the shop's currency.</summary>
public sealed record ShippingBand(int UpToGrams, long PriceMinor);

/// <summary>Countries that a parcel costs the same to.</summary>
/// <param name="Countries">Codes of ISO 3166-1; none for everywhere that no other zone names.</param>
/// <param name="Bands">From light to heavy.</param>
public sealed record ShippingZone(string Name, IReadOnlyList<string> Countries, IReadOnlyList<ShippingBand> Bands)
{
    [JsonIgnore]
    public bool IsEverywhereElse => Countries.Count == 0;

    [JsonIgnore]
    public int MostGrams => Bands[^1].UpToGrams;

    /// <summary>Null for a parcel that is too heavy.</summary>
    public long? PriceOf(int grams) => Bands.FirstOrDefault(band => grams <= band.UpToGrams)?.PriceMinor;
}

/// <summary>What sending costs. Without zones it is a part of the reeds' price.</summary>
/// <param name="PackingGrams">What a parcel weighs beside its reeds.</param>
/// <param name="Zones">No country in two of them.</param>
public sealed record ShippingTerms(int PackingGrams, IReadOnlyList<ShippingZone> Zones)
{
    public const string PackingField = "packingGrams";
    public const int MostPackingGrams = 10_000;
    public const int MostZones = 12;
    public const int MostBands = 20;
    public const int MostBandGrams = 50_000;
    public const int MostNameCharacters = 40;
    public const long MostPriceMinor = 1_000_000;

    /// <summary>A padded envelope with a stiff card weighs about that: common practice, no source.</summary>
    public const int UsualPackingGrams = 40;

    public static ShippingTerms None { get; } = new(UsualPackingGrams, []);

    [JsonIgnore]
    public bool AreSet => Zones.Count > 0;

    /// <summary>The zone of a country, or null where nothing is sent to.</summary>
    public ShippingZone? ZoneOf(string country) =>
        Zones.FirstOrDefault(zone => zone.Countries.Contains(country, StringComparer.Ordinal))
        ?? Zones.FirstOrDefault(zone => zone.IsEverywhereElse);

    /// <summary>All countries that something is sent to.</summary>
    [JsonIgnore]
    public IEnumerable<string> Covered =>
        Zones.Any(zone => zone.IsEverywhereElse) ? Countries.All : Zones.SelectMany(zone => zone.Countries);

    /// <summary>Grams are rounded up, as a scale at the counter does.</summary>
    /// <param name="reedGrams">What the reeds of a parcel weigh.</param>
    public int Weigh(decimal reedGrams) => PackingGrams + (int)Math.Ceiling(reedGrams);

    /// <summary>Codes and names without spaces around them, each zone's bands from light to heavy.</summary>
    public ShippingTerms Tidy() =>
        this with
        {
            Zones =
            [
                .. Zones.Select(zone => new ShippingZone(
                    zone.Name.Trim(),
                    [
                        .. zone
                            .Countries.Select(country => Countries.Read(country)!)
                            .Distinct()
                            .Order(StringComparer.Ordinal),
                    ],
                    [.. zone.Bands.OrderBy(band => band.UpToGrams)]
                )),
            ],
        };

    /// <summary>The first thing that is wrong with these terms, or null.</summary>
    /// <param name="field">Names the part of a zone, counted from 0, in a refusal: its "name", "countries" or "bands".</param>
    public Refusal? Fault(string currency, Func<int, string, string> field) =>
        PackingGrams is < 0 or > MostPackingGrams
            ? Refusal.Invalid(
                PackingField,
                "The weight of the packing cannot be used.",
                $"0 to {MostPackingGrams} grams"
            )
        : Zones.Count > MostZones
            ? Refusal.Invalid(field(MostZones, "name"), "There are too many zones.", $"up to {MostZones} zones")
        : Zones
            .Select((zone, index) => ZoneFault(zone, currency, part => field(index, part)))
            .FirstOrDefault(fault => fault is not null)
            ?? TwiceFault(field)
            ?? PackingFault(field);

    /// <summary>Nothing could be sent in a parcel whose packing alone is too heavy.</summary>
    private Refusal? PackingFault(Func<int, string, string> field) =>
        Enumerable
            .Range(0, Zones.Count)
            .Where(index => Zones[index].Bands.Max(band => band.UpToGrams) <= PackingGrams)
            .Select(index =>
                Refusal.Invalid(
                    field(index, "bands"),
                    $"The packing alone weighs {PackingGrams} grams.",
                    $"a weight above {PackingGrams} grams, or lighter packing"
                )
            )
            .FirstOrDefault();

    private static Refusal? ZoneFault(ShippingZone zone, string currency, Func<string, string> field) =>
        string.IsNullOrWhiteSpace(zone.Name) || zone.Name.Length > MostNameCharacters
            ? Refusal.Invalid(field("name"), "The zone has no usable name.", $"1 to {MostNameCharacters} characters")
        : zone.Countries.FirstOrDefault(country => Countries.Read(country) is null) is { } unknown
            ? Refusal.Invalid(
                field("countries"),
                $"There is no country “{unknown}”.",
                "two-letter codes of ISO 3166-1, such as PT, ES"
            )
        : zone.Bands.Count is 0 or > MostBands
            ? Refusal.Invalid(
                field("bands"),
                "The zone has no price, or too many.",
                $"1 to {MostBands} weights with a price"
            )
        : zone.Bands.Any(band => band.UpToGrams is < 1 or > MostBandGrams || band.PriceMinor is < 0 or > MostPriceMinor)
            ? Refusal.Invalid(
                field("bands"),
                "A weight or a price cannot be used.",
                $"1 to {MostBandGrams} grams, a price from 0 to "
                    + Words.Named($"{new Money(MostPriceMinor, currency)}", $"{MostPriceMinor} in the minor unit")
            )
        : zone.Bands.DistinctBy(band => band.UpToGrams).Count() != zone.Bands.Count
            ? Refusal.Invalid(field("bands"), "A weight stands there twice.", "each weight once")
        : null;

    private Refusal? TwiceFault(Func<int, string, string> field)
    {
        var taken = new HashSet<string>(StringComparer.Ordinal);
        for (var index = 0; index < Zones.Count; index++)
        {
            // "" stands for everywhere else, of which there is one as well.
            string[] places = Zones[index].IsEverywhereElse
                ? [""]
                : [.. Zones[index].Countries.Select(country => Countries.Read(country)!).Distinct()];
            if (places.FirstOrDefault(place => !taken.Add(place)) is { } twice)
            {
                return Refusal.Invalid(
                    field(index, "countries"),
                    twice.Length == 0
                        ? "Another zone is for everywhere else already."
                        : $"{twice} belongs to another zone already.",
                    "each country in one zone, and one zone for everywhere else"
                );
            }
        }

        return null;
    }
}

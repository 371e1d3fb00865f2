using System.Text.Json.Serialization;
using ReedShop.Platform;

namespace ReedShop.Orders;

/// <summary>A postal address; the names of its parts are those of vCard (RFC 6350).</summary>
public sealed record PostalAddress(
    string Street,
    string Locality,
    string PostalCode,
    string Country,
    string? Region = null
)
{
    private const int MostCharacters = 200;

    public PostalAddress Trimmed() =>
        new(
            Street.Trim(),
            Locality.Trim(),
            PostalCode.Trim(),
            Country.Trim(),
            string.IsNullOrWhiteSpace(Region) ? null : Region.Trim()
        );

    /// <summary>As it stands on a letter.</summary>
    public IReadOnlyList<string> Lines() =>
        [Street, $"{PostalCode} {Locality}", Region is null ? CountryName : $"{Region}, {CountryName}"];

    /// <summary>In the language of the reader where its code is known, else as it was written.</summary>
    [JsonIgnore]
    public string CountryName =>
        Country.Trim().Length == Countries.CodeLetters && Countries.Read(Country) is { } code
            ? Countries.Name(code)
            : Country;

    /// <param name="field">The name a refusal gives, before the part.</param>
    public IEnumerable<Refusal> Faults(string field) =>
        new[]
        {
            LineFault($"{field}.street", Street),
            LineFault($"{field}.postalCode", PostalCode),
            LineFault($"{field}.locality", Locality),
            string.IsNullOrWhiteSpace(Region) ? null : LineFault($"{field}.region", Region),
            LineFault($"{field}.country", Country) ?? CountryFault($"{field}.country", Country),
        }.OfType<Refusal>();

    /// <summary>One line of a parcel's label, such as a name or a street.</summary>
    public static Refusal? LineFault(string field, string line) =>
        string.IsNullOrWhiteSpace(line) || line.Length > MostCharacters || line.Any(char.IsControl)
            ? Refusal.Invalid(
                field,
                OrderTexts.Say["NeededForParcel"],
                OrderTexts.Say["CharactersUpTo", MostCharacters]
            )
            : null;

    /// <summary>
    /// A country may be written out in any language; two letters are a code, and have to be one.
    /// </summary>
    private static Refusal? CountryFault(string field, string country) =>
        country.Trim() is { Length: Countries.CodeLetters } code && Countries.Read(code) is null
            ? Refusal.Invalid(field, OrderTexts.Say["NoSuchCountry", code], OrderTexts.Say["CountrySuchAs"])
            : null;
}

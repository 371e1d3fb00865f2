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
        [Street, $"{PostalCode} {Locality}", Region is null ? Country : $"{Region}, {Country}"];

    /// <param name="field">The name a refusal gives, before the part.</param>
    public Refusal? Fault(string field) =>
        LineFault($"{field}.street", Street)
        ?? LineFault($"{field}.locality", Locality)
        ?? LineFault($"{field}.postalCode", PostalCode)
        ?? LineFault($"{field}.country", Country)
        ?? (string.IsNullOrWhiteSpace(Region) ? null : LineFault($"{field}.region", Region));

    /// <summary>One line of a parcel's label, such as a name or a street.</summary>
    public static Refusal? LineFault(string field, string line) =>
        string.IsNullOrWhiteSpace(line) || line.Length > MostCharacters || line.Any(char.IsControl)
            ? Refusal.Invalid(
                field,
                OrderTexts.Say["NeededForParcel"],
                OrderTexts.Say["CharactersUpTo", MostCharacters]
            )
            : null;
}

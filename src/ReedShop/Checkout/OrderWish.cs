using ReedShop.Orders;
using ReedShop.Platform;

namespace ReedShop.Checkout;

public sealed record Buyer(string Name, string Email);

/// <summary>A buyer takes a quote. The names of the address are those of vCard (RFC 6350).</summary>
public sealed record OrderWish(string QuoteId, Buyer Buyer, PostalAddress Address)
{
    private const int MostCharacters = 200;

    /// <summary>The wish with trimmed texts, or the first thing wrong with it.</summary>
    public Result<OrderWish> Parse()
    {
        var fault =
            Text("buyer.name", Buyer.Name)
            ?? Text("address.street", Address.Street)
            ?? Text("address.locality", Address.Locality)
            ?? Text("address.postalCode", Address.PostalCode)
            ?? Text("address.country", Address.Country)
            ?? (Address.Region?.Length > MostCharacters ? Text("address.region", "") : null)
            ?? (
                EmailAddress.IsUsable(Buyer.Email)
                    ? null
                    : Refusal.Invalid("buyer.email", "The e-mail address cannot be written to.", EmailAddress.Allowed)
            );
        return fault is not null ? fault : Trimmed();
    }

    private OrderWish Trimmed() =>
        this with
        {
            Buyer = new Buyer(Buyer.Name.Trim(), Buyer.Email.Trim()),
            Address = new PostalAddress(
                Address.Street.Trim(),
                Address.Locality.Trim(),
                Address.PostalCode.Trim(),
                Address.Country.Trim(),
                string.IsNullOrWhiteSpace(Address.Region) ? null : Address.Region.Trim()
            ),
        };

    private static Refusal? Text(string field, string value) =>
        string.IsNullOrWhiteSpace(value) || value.Length > MostCharacters || value.Any(char.IsControl)
            ? Refusal.Invalid(
                field,
                "This is needed to send the parcel.",
                $"1 to {MostCharacters} characters on one line"
            )
            : null;
}

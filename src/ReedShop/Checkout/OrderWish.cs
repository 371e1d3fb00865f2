using System.Globalization;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

public sealed record Buyer(string Name, string Email);

/// <summary>A buyer takes a quote. The names of the address are those of vCard (RFC 6350).</summary>
/// <param name="Language">What letters to the buyer are written in, such as "de" or "pt-BR"; British English where none is sent.</param>
public sealed record OrderWish(string QuoteId, Buyer Buyer, PostalAddress Address, string? Language = null)
{
    /// <summary>The wish with trimmed texts, or the first thing wrong with it.</summary>
    public Result<OrderWish> Parse() =>
        Faults().FirstOrDefault() is { } fault
            ? fault
            : this with
            {
                Buyer = new Buyer(Buyer.Name.Trim(), Buyer.Email.Trim()),
                Address = Address.Trimmed(),
                Language = (Known(Language) ?? Languages.Usual).Name,
            };

    /// <summary>All that is wrong with what the buyer says of himself, in the order of the form.</summary>
    public IEnumerable<Refusal> Faults() =>
        new[]
        {
            PostalAddress.LineFault("buyer.name", Buyer.Name),
            EmailAddress.IsUsable(Buyer.Email)
                ? null
                : Refusal.Invalid("buyer.email", Say["EmailUnusable"], Say["EmailSuchAs"]),
        }
            .Concat(Address.Faults("address"))
            .Append(
                Language is null || Known(Language) is not null
                    ? null
                    : Refusal.Invalid("language", Say["NoSuchLanguage"], Say["LanguageIsOne", Offered])
            )
            .OfType<Refusal>();

    private static string Offered => string.Join(", ", Languages.All.Select(culture => culture.Name));

    private static CultureInfo? Known(string? language) =>
        language is null ? null : Languages.Nearest([language], _ => true);
}

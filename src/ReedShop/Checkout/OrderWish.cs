using ReedShop.Orders;
using ReedShop.Platform;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

public sealed record Buyer(string Name, string Email);

/// <summary>A buyer takes a quote. The names of the address are those of vCard (RFC 6350).</summary>
public sealed record OrderWish(string QuoteId, Buyer Buyer, PostalAddress Address)
{
    /// <summary>The wish with trimmed texts, or the first thing wrong with it.</summary>
    public Result<OrderWish> Parse()
    {
        var fault =
            PostalAddress.LineFault("buyer.name", Buyer.Name)
            ?? Address.Fault("address")
            ?? (
                EmailAddress.IsUsable(Buyer.Email)
                    ? null
                    : Refusal.Invalid("buyer.email", Say["EmailUnusable"], Say["EmailSuchAs"])
            );
        return fault is not null
            ? fault
            : this with
            {
                Buyer = new Buyer(Buyer.Name.Trim(), Buyer.Email.Trim()),
                Address = Address.Trimmed(),
            };
    }
}

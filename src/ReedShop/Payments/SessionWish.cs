using ReedShop.Orders;
using Stripe.Checkout;

namespace ReedShop.Payments;

/// <summary>The session a buyer is to pay, as Stripe is asked for it.</summary>
internal static class SessionWish
{
    private const string OurOrder = "order";

    public static SessionCreateOptions Of(PaySession session, Order order, string page)
    {
        var about = new Dictionary<string, string>(StringComparer.Ordinal)
        {
            [OurOrder] = order.Number.ToString(System.Globalization.CultureInfo.InvariantCulture),
        };
        return new SessionCreateOptions
        {
            Mode = "payment",
            ClientReferenceId = session.Id,
            CustomerEmail = order.BuyerEmail,
            // Methods that pay later would keep evenings held for days.
            AllowedPaymentMethodTypes = ["card"],
            LineItems = [Item(session, order)],
            SuccessUrl = $"{page}/paid",
            CancelUrl = page,
            ExpiresAt = session.ExpiresUtc,
            Metadata = about,
            PaymentIntentData = new SessionPaymentIntentDataOptions
            {
                Metadata = about,
                Description = $"Order {order.Number}",
            },
        };
    }

    /// <summary>One line with the whole amount: several would have to be rounded each.</summary>
    private static SessionLineItemOptions Item(PaySession session, Order order) =>
        new()
        {
            Quantity = 1,
            PriceData = new SessionLineItemPriceDataOptions
            {
                Currency = session.Currency.ToLowerInvariant(),
                UnitAmount = CardMoney.Of(session.Currency)!.ToStripe(session.AmountMinor),
                ProductData = new SessionLineItemPriceDataProductDataOptions { Name = Name(session, order) },
            },
        };

    private static string Name(PaySession session, Order order)
    {
        var reeds = order.Lines.OrderBy(l => l.Position).Select(l => $"{l.Quantity} of {l.Strength} ({l.Model})");
        var part = session.Part switch
        {
            PayPart.Deposit => ", deposit",
            PayPart.Balance => ", balance",
            _ => "",
        };
        var shipping = order.ShippingMinor is null ? "" : ", shipping";
        return $"Order {order.Number}{part}: {string.Join(", ", reeds)}{shipping}";
    }
}

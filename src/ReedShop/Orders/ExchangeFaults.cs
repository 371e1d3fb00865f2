using ReedShop.Catalogue;
using ReedShop.Platform;
using static ReedShop.Orders.OrderTexts;

namespace ReedShop.Orders;

/// <summary>Why a wish to exchange, or an answer to one, is not taken.</summary>
internal static class ExchangeFaults
{
    public static Refusal? Of(Order order, ExchangeWish wish, IReadOnlyDictionary<string, ReedModel> models)
    {
        if (order.Stage != OrderStage.Shipped)
        {
            return Refusal.Stage(Say["NothingToExchange"], OrderMoves.Words(OrderStage.Shipped));
        }

        var sent = Exchanging.Sent(order);
        if (
            sent.SingleOrDefault(reeds => (reeds.Model, reeds.Strength) == (wish.Model, wish.Strength)) is not { } reeds
            || !models.TryGetValue(wish.Model, out var model)
        )
        {
            return Refusal.Invalid(
                "strength",
                Say["NotSent"],
                string.Join(", ", sent.Select(one => $"{one.Strength} ({ReadyNames.Of(models, one.Model)})"))
            );
        }

        return wish.To == wish.Strength || !model.Strengths.Contains(wish.To)
            ? Refusal.Invalid(
                "to",
                Say["NoOtherStrength"],
                string.Join(", ", model.Strengths.Where(strength => strength != wish.Strength))
            )
            : CountFault(Exchanging.Free(order, reeds), wish.Quantity);
    }

    /// <summary>The owner reads English.</summary>
    public static Refusal? Of(StrengthExchange? exchange, ExchangeMove move, string says) =>
        exchange is null ? Refusal.Missing("such wish to exchange")
        : ExchangeMoves.To(move, exchange.Stage) is null
            ? Refusal.Stage("This was answered already, and the buyer was told.", "a wish without an answer")
        : says.Length is < 1 or > Exchanging.MostCharacters
            ? Refusal.Invalid(
                "says",
                "The buyer gets a sentence with the answer.",
                $"1 to {Exchanging.MostCharacters} characters"
            )
        : null;

    private static Refusal? CountFault(int free, int wanted) =>
        free == 0 ? Refusal.Stage(Say["AllAskedFor"], Say["AllAskedFor.instead"])
        : wanted < 1 || wanted > free ? Refusal.Invalid("quantity", Say["NotSoManySent"], Say["OneTo", free])
        : null;
}

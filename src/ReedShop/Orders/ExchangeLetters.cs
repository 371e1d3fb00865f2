using ReedShop.Catalogue;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Orders;

/// <summary>Tells each side once what the other wants of an exchange.</summary>
public sealed class ExchangeLetters(ShopStore shops, OutboxStore outbox, JournalStore journal, PublicAddress address)
{
    public async Task TellMaker(Order order, StrengthExchange exchange, CancellationToken cancel)
    {
        var what = $"{exchange.Quantity} of {exchange.Strength} ({exchange.Model}) for {exchange.To}";
        journal.Write("buyer", $"order {order.Number}", $"asks to exchange {what}");
        outbox.Add(
            "exchange-asked",
            Subject(order, exchange),
            (await shops.Get(cancel)).OwnerEmail,
            $"Order {order.Number}: the buyer would exchange {what}",
            $"""
            {order.BuyerName} ({order.BuyerEmail}) would send back unopened reeds of order {order.Number}: {what}.
            Nothing has been promised. Answer yes or no here:
            {address.Of("/bench/orders")}
            What comes back opened is never sold again: book it in the drawer as returned.
            """
        );
    }

    public async Task TellBuyer(
        Order order,
        StrengthExchange exchange,
        IReadOnlyDictionary<string, ReedModel> models,
        CancellationToken cancel
    )
    {
        journal.Write(
            "owner",
            $"order {order.Number}",
            $"exchange {exchange.Number} {(exchange.IsAgreed ? "agreed to" : "declined")}: {exchange.Answer}"
        );
        var (title, text) = new OrderMessages(await shops.Get(cancel), models).ExchangeAnswered(
            order,
            exchange,
            address.Of($"/orders/{order.Id}")
        );
        outbox.Add(
            "exchange-answered",
            Subject(order, exchange),
            order.BuyerEmail,
            title,
            text,
            language: order.Language
        );
    }

    private static string Subject(Order order, StrengthExchange exchange) =>
        $"order {order.Number}, exchange {exchange.Number}";
}

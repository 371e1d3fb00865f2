using ReedShop.Catalogue;
using ReedShop.Planning;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Orders;

/// <summary>A buyer would send unopened reeds back for another strength.</summary>
/// <param name="Strength">Of the reeds that were sent.</param>
public sealed record ExchangeWish(string Model, Strength Strength, Strength To, int Quantity);

/// <summary>The maker's yes or no to one wish.</summary>
/// <param name="Number">Which one, from 1 for each order.</param>
/// <param name="Says">A sentence that goes to the buyer as it is.</param>
public sealed record ExchangeReply(int Number, bool Accept, string Says);

/// <summary>
/// Takes wishes to exchange and the answers. Nothing is planned by it: what comes back, and what leaves for it, the maker
/// books in the drawer.
/// </summary>
public sealed class Exchanging(OrderStore orders, CatalogueStore catalogue, ExchangeLetters letters, ShopClock clock)
{
    public const int MostCharacters = 500;

    public async Task<Result<OrderView>> Ask(string id, ExchangeWish wish, VersionCheck check, CancellationToken cancel)
    {
        var models = await Models(cancel);
        return await Change(
            id,
            check,
            order => order.Exchanges.Any(asked => asked.IsOpen && Wish(asked) == wish),
            order => ExchangeFaults.Of(order, wish, models),
            order => letters.TellMaker(order, Add(order, wish), cancel),
            cancel
        );
    }

    public async Task<Result<OrderView>> Answer(
        string id,
        ExchangeReply reply,
        VersionCheck check,
        CancellationToken cancel
    )
    {
        var models = await Models(cancel);
        var says = reply.Says.Trim();
        var to = reply.Accept ? ExchangeMove.Agree : ExchangeMove.Decline;
        return await Change(
            id,
            check,
            order =>
                Find(order, reply) is { IsOpen: false } answered
                && (answered.IsAgreed, answered.Answer) == (reply.Accept, says),
            order => ExchangeFaults.Of(Find(order, reply), to, says),
            order =>
            {
                var exchange = Find(order, reply)!;
                (exchange.Stage, exchange.Answer) = (ExchangeMoves.To(to, exchange.Stage)!.Value, says);
                return letters.TellBuyer(order, exchange, models, cancel);
            },
            cancel
        );
    }

    /// <summary>What has left, by model and strength.</summary>
    public static IReadOnlyList<SentReeds> Sent(Order order) =>
        [
            .. order
                .Parcels.SelectMany(parcel => parcel.Reeds)
                .GroupBy(reeds => (reeds.Model, reeds.Strength))
                .Select(same => new SentReeds(same.Key.Model, same.Key.Strength, same.Sum(reeds => reeds.Quantity))),
        ];

    /// <summary>How many of what was sent may still be asked for: what was declined was not exchanged.</summary>
    public static int Free(Order order, SentReeds sent) =>
        sent.Quantity
        - order
            .Exchanges.Where(asked => (asked.Model, asked.Strength) == (sent.Model, sent.Strength))
            .Where(asked => asked.Stage != ExchangeStage.Declined)
            .Sum(asked => asked.Quantity);

    private async Task<IReadOnlyDictionary<string, ReedModel>> Models(CancellationToken cancel) =>
        (await catalogue.All(cancel)).ToDictionary(model => model.Key, StringComparer.Ordinal);

    private static StrengthExchange? Find(Order order, ExchangeReply reply) =>
        order.Exchanges.SingleOrDefault(exchange => exchange.Number == reply.Number);

    private static ExchangeWish Wish(StrengthExchange asked) =>
        new(asked.Model, asked.Strength, asked.To, asked.Quantity);

    /// <param name="isDone">The same came before, so that nothing is left to do.</param>
    private async Task<Result<OrderView>> Change(
        string id,
        VersionCheck check,
        Func<Order, bool> isDone,
        Func<Order, Refusal?> fault,
        Func<Order, Task> work,
        CancellationToken cancel
    )
    {
        if (await orders.Find(id, cancel) is not { } order)
        {
            return OrderStore.Missing;
        }

        if (isDone(order))
        {
            return OrderView.Of(order);
        }

        if ((check(order.Version) ?? fault(order)) is { } refusal)
        {
            return refusal;
        }

        order.Version++;
        await work(order);
        return await orders.TrySave(cancel)
            ? OrderView.Of(order)
            : new Refusal(RefusalKind.Busy, FrameTexts.Say["OthersCameFirst"]);
    }

    private StrengthExchange Add(Order order, ExchangeWish wish)
    {
        var exchange = new StrengthExchange
        {
            Number = order.Exchanges.Count + 1,
            Model = wish.Model,
            Strength = wish.Strength,
            To = wish.To,
            Quantity = wish.Quantity,
            AskedUtc = clock.NowUtc,
        };
        order.Exchanges.Add(exchange);
        return exchange;
    }
}

using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>
/// Opens sessions at Stripe. The row is saved before Stripe is asked, and its address is saved before anybody is given it:
/// so a session that the shop does not know of is one that nobody can pay.
/// </summary>
public sealed class PaySessions(
    BooksStore books,
    OrderStore orders,
    StripeDesk desk,
    FactsGate gate,
    PublicAddress address,
    ShopClock clock
)
{
    /// <summary>The shortest Stripe takes is half an hour from when it reads the request; a minute is for the way there.</summary>
    public static readonly TimeSpan Life = TimeSpan.FromMinutes(31);

    private static readonly TimeSpan OnTheWay = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan AskEvery = TimeSpan.FromMinutes(5);
    private const string TroubleKind = "payment-trouble";
    private static readonly TimeSpan FaultsUntilTold = TimeSpan.FromHours(1);

    /// <summary>Where the buyer of an order can pay now, if that is known.</summary>
    public async Task<string?> KnownUrl(string orderId, CancellationToken cancel) =>
        (await Wanted(orderId, cancel))?.Url;

    /// <summary>Where the buyer of an order can pay now, opening a session if that was not done yet.</summary>
    public async Task<string?> Url(string orderId, CancellationToken cancel) =>
        await Wanted(orderId, cancel) is { } session ? session.Url ?? (await Open(session, cancel)).Url : null;

    /// <summary>Opens the session, or finds it open: the key of the request is that of the row.</summary>
    public async Task<PaySession> Open(PaySession session, CancellationToken cancel)
    {
        if (
            session.State != PaySessionState.Wanted
            || await orders.Find(session.OrderId, cancel) is not { } order
            || !Settlement.IsStillWanted(await books.StandingOf(order.Id, cancel), session.Part)
        )
        {
            return session;
        }

        if (clock.NowUtc > session.ExpiresUtc - Life + OnTheWay)
        {
            session = await Change(session.Id, Renew, cancel);
        }

        var asked = await desk.Open(session, order, address.Of($"/orders/{order.Id}"), cancel);
        return await Change(session.Id, row => Take(row, asked), cancel);
    }

    /// <summary>Nothing new is known: when to ask again.</summary>
    public async Task AskLater(PaySession session, string? fault, CancellationToken cancel)
    {
        await Change(
            session.Id,
            row =>
            {
                row.LastError = fault;
                row.AskNextUtc = NextQuestion(row);
            },
            cancel
        );
        if (fault is not null && clock.NowUtc > session.ExpiresUtc + FaultsUntilTold)
        {
            await TellOwner(session, fault, cancel);
        }
    }

    /// <summary>Once: a session that has been over for an hour and cannot be settled.</summary>
    private Task<Result<bool>> TellOwner(PaySession session, string fault, CancellationToken cancel) =>
        gate.Write<bool>(
            async (services, stop) =>
            {
                var order = (await services.GetRequiredService<OrderStore>().Find(session.OrderId, stop))!;
                var outbox = services.GetRequiredService<OutboxStore>();
                var subject = $"order {order.Number}, faults {session.Id[..8]}";
                if (await outbox.Has(TroubleKind, subject, stop))
                {
                    return false;
                }

                PaymentLetters.TellOwner(
                    outbox,
                    subject,
                    $"Order {order.Number}: what became of its payment is not known",
                    $"{fault}. Stripe is asked every minute; the order keeps what it holds until there is an answer. Look at "
                        + "the keys of Stripe, and whether money came in; you can cancel the order.",
                    await services.GetRequiredService<ShopStore>().Get(stop)
                );
                return true;
            },
            cancel
        );

    /// <summary>The session that the buyer of an order is to pay now, if any.</summary>
    private async Task<PaySession?> Wanted(string orderId, CancellationToken cancel) =>
        await books.UnfinishedSession(orderId, cancel) is { } session
        && Settlement.IsStillWanted(await books.StandingOf(orderId, cancel), session.Part)
            ? session
            : null;

    /// <summary>A fresh attempt, with a key and half an hour of its own. Only the newest session's address is given out.</summary>
    private void Renew(PaySession row)
    {
        row.Attempt++;
        row.ExpiresUtc = clock.NowUtc + Life;
    }

    private void Take(PaySession row, Asked<StripeSession> asked)
    {
        row.LastError = asked.Fault;
        if (asked.Value is { } opened && row.State == PaySessionState.Wanted)
        {
            (row.State, row.StripeId, row.Url) = (PaySessionState.Open, opened.Id, opened.Url);
        }
        else if (asked.IsFinal && row.State == PaySessionState.Wanted)
        {
            row.State = PaySessionState.Refused;
        }
        else if (asked.IsKeySpent && row.State == PaySessionState.Wanted)
        {
            Renew(row);
        }

        row.AskNextUtc = NextQuestion(row);
    }

    private DateTime NextQuestion(PaySession row)
    {
        var now = clock.NowUtc;
        var soon = now + (row.State == PaySessionState.Open ? AskEvery : OnTheWay);
        return row.State == PaySessionState.Refused ? now
            : now < row.ExpiresUtc && row.ExpiresUtc < soon ? row.ExpiresUtc
            : now < row.ExpiresUtc ? soon
            : now + OnTheWay;
    }

    private async Task<PaySession> Change(string id, Action<PaySession> change, CancellationToken cancel) =>
        (
            await gate.Write<PaySession>(
                async (services, stop) =>
                {
                    var row = await services.GetRequiredService<BooksStore>().SessionToChange(id, stop);
                    change(row);
                    return row;
                },
                cancel
            )
        ).Value;
}

using ReedShop.Platform;
using ReedShop.Workshop;

namespace ReedShop.Payments;

/// <summary>
/// The one door to paid and to expired. A webhook, the buyer who comes back and the reconciliation only say which session to
/// look at; what becomes of it follows from what Stripe answers.
/// </summary>
public sealed class Settling(
    BooksStore books,
    StripeDesk desk,
    PaySessions sessions,
    Refunding refunding,
    Bench bench,
    ShopClock clock
)
{
    /// <param name="stripeId">Stripe's name of the session.</param>
    /// <returns>A refusal: busy if Stripe could not be asked and is to be asked again; any other would come again.</returns>
    public async Task<Result<SettleMove>> Settle(string stripeId, CancellationToken cancel)
    {
        var asked = await desk.Read(stripeId, cancel);
        if (asked.Value is not { } told)
        {
            return new Refusal(asked.IsFinal ? RefusalKind.NotFound : RefusalKind.Busy, asked.Fault!);
        }

        if (await books.FindSession(told.Ours, cancel) is not { } session)
        {
            return SettleMove.None;
        }

        var standing = await books.StandingOf(session.OrderId, cancel);
        var move = Settlement.Next(standing, session, told);
        if (move == SettleMove.CloseAtStripe)
        {
            var closed = await desk.Close(told, clock.NowUtc, cancel);
            if (closed.Value is null)
            {
                return new Refusal(RefusalKind.Busy, closed.Fault!);
            }

            told = closed.Value;
            move = Settlement.Next(standing, session, told);
        }

        return move is SettleMove.None ? await Later(session, cancel) : await Settle(session, told, cancel);
    }

    /// <summary>
    /// Before anything is made of a payment it must stand in the book: a word of its refund may come before the word that it
    /// was made.
    /// </summary>
    /// <param name="stripePayment">Stripe's name of the payment.</param>
    public async Task<Result<SettleMove>> Know(string stripePayment, CancellationToken cancel)
    {
        if (await books.FindPayment(stripePayment, cancel) is not null)
        {
            return SettleMove.None;
        }

        var asked = await desk.SessionsOf(stripePayment, cancel);
        return asked.Value switch
        {
            null => new Refusal(RefusalKind.Busy, asked.Fault!),
            [var session, ..] => await Settle(session.Id, cancel),
            _ => SettleMove.None,
        };
    }

    /// <summary>Looks at an order's session, if one may still be paid.</summary>
    public async Task SettleOrder(string orderId, CancellationToken cancel)
    {
        if (await books.UnfinishedSession(orderId, cancel) is { StripeId: { } stripeId })
        {
            await Settle(stripeId, cancel);
        }
    }

    /// <summary>
    /// A session that could not be opened at Stripe for as long as an order is held, or of which Stripe knows nothing that fits
    /// once its time is over: its order waits no longer. Should it be paid all the same, it is paid too late.
    /// </summary>
    /// <param name="tellBuyer">That no money was taken; not where nobody knows.</param>
    public Task<Result<SettleMove>> GiveUp(PaySession session, bool tellBuyer, CancellationToken cancel) =>
        bench.Change(
            (services, facts, stop) =>
                services.GetRequiredService<SettledOrder>().GiveUp(facts, session.Id, tellBuyer, stop),
            cancel
        );

    private async Task<Result<SettleMove>> Settle(PaySession session, StripeSession told, CancellationToken cancel)
    {
        var settled = await bench.Change(
            (services, facts, stop) => services.GetRequiredService<SettledOrder>().Apply(facts, session.Id, told, stop),
            cancel
        );
        if (!settled.IsRefused)
        {
            await refunding.CarryDue(session.OrderId, cancel);
        }

        return settled;
    }

    private async Task<Result<SettleMove>> Later(PaySession session, CancellationToken cancel)
    {
        if (!session.IsOver)
        {
            await sessions.AskLater(session, null, cancel);
        }

        return SettleMove.None;
    }
}

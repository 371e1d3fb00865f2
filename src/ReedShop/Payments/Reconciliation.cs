using ReedShop.Platform;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

/// <summary>
/// Repairs what a lost webhook, a crash or a silent Stripe left behind: sessions to be opened, sessions to be asked about,
/// refunds to be carried.
/// </summary>
public sealed class Reconciliation(
    BooksStore store,
    PaySessions sessions,
    Settling settling,
    Refunding refunding,
    ShopClock clock
) : ITick
{
    private const int MostAtOnce = 100;

    public async Task Run(CancellationToken cancel)
    {
        foreach (var session in await store.DueSessions(MostAtOnce, cancel))
        {
            await (session.StripeId is { } stripeId ? Ask(session, stripeId, cancel) : Open(session, cancel));
        }

        await refunding.CarryDue(null, cancel);
    }

    private async Task Ask(PaySession session, string stripeId, CancellationToken cancel)
    {
        var settled = await settling.Settle(stripeId, cancel);
        if (settled.Refusal is { } refusal)
        {
            await sessions.AskLater(session, refusal.Detail, cancel);
        }
    }

    private async Task Open(PaySession session, CancellationToken cancel)
    {
        var held = clock.NowUtc - session.MadeUtc;
        var opened = held < PaySessions.Life ? await sessions.Open(session, cancel) : session;
        if (opened.State != PaySessionState.Open && opened.AskNextUtc <= clock.NowUtc)
        {
            await settling.GiveUp(opened, cancel);
        }
    }
}

using ReedShop.Platform;
using ReedShop.Platform.Ticks;

namespace ReedShop.Payments;

/// <summary>
/// Repairs what a lost webhook, a crash or a silent Stripe left behind: sessions to be opened, sessions to be asked about,
/// refunds to be carried.
/// </summary>
public sealed partial class Reconciliation(
    BooksStore store,
    PaySessions sessions,
    Settling settling,
    Refunding refunding,
    ShopClock clock,
    ILogger<Reconciliation> log
) : ITick
{
    private const int MostAtOnce = 100;

    public async Task Run(CancellationToken cancel)
    {
        foreach (var session in await store.DueSessions(MostAtOnce, cancel))
        {
            try
            {
                await (session.StripeId is { } stripeId ? Ask(session, stripeId, cancel) : Open(session, cancel));
            }
            catch (Exception fault) when (fault is not OperationCanceledException)
            {
                Failed(fault);
                await sessions.AskLater(session, StripeEvents.ProgramFault, cancel);
            }
        }

        await refunding.CarryDue(null, cancel);
    }

    private async Task Ask(PaySession session, string stripeId, CancellationToken cancel)
    {
        if ((await settling.Settle(stripeId, cancel)).Refusal is not { } refusal)
        {
            return;
        }

        await sessions.AskLater(session, refusal.Detail, cancel);
        if (refusal.Kind != RefusalKind.Busy && clock.NowUtc > session.ExpiresUtc)
        {
            await settling.GiveUp(session, tellBuyer: refusal.Kind == RefusalKind.NotFound, cancel);
        }
    }

    private async Task Open(PaySession session, CancellationToken cancel)
    {
        var held = clock.NowUtc - session.MadeUtc;
        var opened = held < PaySessions.Life ? await sessions.Open(session, cancel) : session;
        if (opened.State != PaySessionState.Open && opened.AskNextUtc <= clock.NowUtc)
        {
            await settling.GiveUp(opened, tellBuyer: true, cancel);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "A session could not be settled")]
    private partial void Failed(Exception fault);
}

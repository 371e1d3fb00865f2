using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Platform.Ticks;
using ReedShop.Shop;
using static ReedShop.Payments.PaymentTexts;

namespace ReedShop.Payments;

/// <summary>The rest of a price of which a deposit was paid.</summary>
public sealed class Balances(FactsGate gate, PaySessions sessions)
{
    public static bool IsOwed(OrderBooks books) =>
        books.Order is { PaysBeforeShipping: true, PaidUtc: null, IsOpen: true }
        && books.Order.Stage != OrderStage.AwaitingPayment;

    /// <summary>Opens a session for it, or finds the one that is open.</summary>
    public async Task<Result<string?>> Ask(string orderId, CancellationToken cancel)
    {
        var asked = await gate.OnBooks<bool>(
            orderId,
            (books, _, _) =>
            {
                if (!IsOwed(books))
                {
                    return Refusal.Stage(Say["NothingOwed"], Say["NothingOwed.instead"]);
                }

                if (books.Sessions.TrueForAll(session => session.IsOver))
                {
                    books.Ask(PayPart.Balance, books.ToPay);
                }

                return true;
            },
            cancel
        );
        return asked.Refusal is { } refusal ? refusal : await sessions.Url(orderId, cancel);
    }
}

/// <summary>Once the reeds of an order lie ready its buyer is asked for the rest, by whichever run of the job is first.</summary>
public sealed class BalanceLetters(OrderStore orders, FactsGate gate, PublicAddress address) : ITick
{
    public async Task Run(CancellationToken cancel)
    {
        foreach (var order in await orders.Open(cancel))
        {
            if (order is { Stage: OrderStage.Ready, PaysBeforeShipping: true, PaidUtc: null })
            {
                await gate.OnBooks<bool>(order.Id, Write, cancel);
            }
        }
    }

    private async Task<Result<bool>> Write(
        OrderBooks books,
        IServiceProvider services,
        ShopSettings shop,
        CancellationToken cancel
    )
    {
        var (outbox, order) = (services.GetRequiredService<OutboxStore>(), books.Order);
        if (!Balances.IsOwed(books) || await outbox.Has(OrderMessages.BalanceWanted, $"order {order.Number}", cancel))
        {
            return false;
        }

        PaymentLetters.BalanceWanted(outbox, order, books.ToPay, shop, address.Of($"/orders/{order.Id}"));
        return true;
    }
}

/// <summary>No sender repeats a word after a quarter of a year.</summary>
public sealed class ForgetOldEvents(InboxStore inbox) : ITick
{
    public Task Run(CancellationToken cancel) => inbox.RemoveOld(cancel);
}

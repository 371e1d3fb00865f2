using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>
/// Carries refunds to Stripe. A refund is a row first, saved with what caused it; here it is done, as often as it takes, and
/// counted once.
/// </summary>
public sealed partial class Refunding(
    BooksStore store,
    StripeDesk desk,
    FactsGate gate,
    ShopClock clock,
    ILogger<Refunding> log
)
{
    private const int MostAtOnce = 100;

    /// <param name="orderId">Of this order only; null for all.</param>
    public async Task CarryDue(string? orderId, CancellationToken cancel)
    {
        foreach (var refund in await store.DueRefunds(MostAtOnce, cancel))
        {
            if (orderId is null || refund.OrderId == orderId)
            {
                await TryCarry(refund, cancel);
            }
        }
    }

    private async Task TryCarry(Refund refund, CancellationToken cancel)
    {
        try
        {
            await Carry(refund, cancel);
        }
        catch (Exception fault) when (fault is not OperationCanceledException)
        {
            Failed(fault);
            await Change(
                refund.OrderId,
                (books, _, _) =>
                {
                    var row = books.Refunds.Single(row => row.Id == refund.Id);
                    (row.LastError, row.NextTryUtc) = (StripeEvents.ProgramFault, Later(row));
                    return true;
                },
                cancel
            );
        }
    }

    /// <summary>Brings the book in line with what Stripe says of a payment's refunds, made by whomever.</summary>
    /// <param name="stripePayment">Stripe's name of the payment.</param>
    public async Task<Result<bool>> Reconcile(string stripePayment, CancellationToken cancel)
    {
        if (await store.FindPayment(stripePayment, cancel) is not { } payment)
        {
            return false;
        }

        var asked = await desk.Refunds(stripePayment, cancel);
        return asked.Value is not { } told
            ? new Refusal(RefusalKind.Busy, asked.Fault!)
            : await Change(
                payment.OrderId,
                (books, services, shop) =>
                {
                    // What is known to have been decided is done before it could give way to what was not.
                    foreach (var refund in told.OrderByDescending(refund => refund.Ours is not null))
                    {
                        Take(books, payment, refund, services, shop);
                    }

                    return true;
                },
                cancel
            );
    }

    /// <summary>
    /// The attempt is written down before it is made. Whoever finds one written down asks Stripe first whether it was done:
    /// after a day Stripe has forgotten the key, and an answer that was kept under it calls for a new one.
    /// </summary>
    private async Task Carry(Refund refund, CancellationToken cancel)
    {
        var payment = await store.PaymentOf(refund, cancel);
        if (refund.Attempts > 0)
        {
            var known = await Reconcile(payment.StripeId!, cancel);
            if (known.IsRefused || (await store.FindRefund(refund.Id, cancel))!.State != RefundState.Wanted)
            {
                return;
            }
        }

        if (await Begin(refund, cancel) is not { } begun)
        {
            return;
        }

        var amount = CardMoney.Of(payment.Currency)!.ToStripe(refund.AmountMinor);
        var asked = await desk.Refund(begun, payment.StripeId!, amount, cancel);
        if (asked.Value is { } done)
        {
            await Change(refund.OrderId, (books, services, shop) => Take(books, payment, done, services, shop), cancel);
        }
        else
        {
            await Failed(begun, asked, cancel);
        }
    }

    /// <summary>Null where it is not to be carried any more, or somebody else carries it since it was read.</summary>
    private async Task<Refund?> Begin(Refund refund, CancellationToken cancel)
    {
        var begun = await gate.OnBooks<Refund?>(
            refund.OrderId,
            (books, _, _) =>
            {
                var row = books.Refunds.Single(row => row.Id == refund.Id);
                if (
                    (row.State, row.Attempts, row.NextTryUtc)
                    != (RefundState.Wanted, refund.Attempts, refund.NextTryUtc)
                )
                {
                    return new Refusal(RefusalKind.Busy, "It is carried already.");
                }

                (row.Attempts, row.NextTryUtc) = (Math.Max(row.Attempts, 1), Later(row));
                return row;
            },
            cancel
        );
        return begun.IsRefused ? null : begun.Value;
    }

    private Task<Result<bool>> Failed(Refund refund, Asked<StripeRefund> asked, CancellationToken cancel) =>
        Change(
            refund.OrderId,
            (books, services, shop) =>
            {
                var row = books.Refunds.Single(row => row.Id == refund.Id);
                row.LastError = asked.Fault;
                row.Attempts += asked.IsKeySpent && row.Attempts == refund.Attempts ? 1 : 0;
                if (asked.IsFinal && row.State == RefundState.Wanted)
                {
                    row.State = RefundState.Refused;
                    TellOwner(books, row, services, shop);
                }

                return true;
            },
            cancel
        );

    private static void TellOwner(OrderBooks books, Refund refund, IServiceProvider services, ShopSettings shop) =>
        PaymentLetters.TellOwner(
            services.GetRequiredService<OutboxStore>(),
            $"order {books.Order.Number}, refund {refund.Id[..8]}, {refund.Attempts}",
            $"Order {books.Order.Number}: a refund was not done",
            $"{PaymentLetters.Amount(refund.AmountMinor, books)} should go back to {books.Order.BuyerName}. {refund.LastError}. "
                + "Look at Stripe, then try it again or pay it back by hand from the page of the order's money.",
            shop
        );

    private static void TellOfMore(OrderBooks books, Refund refund, IServiceProvider services, ShopSettings shop) =>
        PaymentLetters.TellOwner(
            services.GetRequiredService<OutboxStore>(),
            $"order {books.Order.Number}, refund {refund.Id[..8]}, more than was paid",
            $"Order {books.Order.Number}: more went back than was paid",
            $"{refund.LastError}: it had gone back to {books.Order.BuyerName} another way before. The shop's book cannot hold "
                + "it. Ask the buyer for it, or put it down as a loss.",
            shop
        );

    /// <summary>Writes down a refund that Stripe tells of, and tells the buyer if it is news.</summary>
    private static bool Take(
        OrderBooks books,
        Payment payment,
        StripeRefund told,
        IServiceProvider services,
        ShopSettings shop
    )
    {
        if (books.Learn(books.Payments.Single(row => row.Id == payment.Id), told) is not { } gone)
        {
            return false;
        }

        if (gone.State == RefundState.Refused)
        {
            TellOwner(books, gone, services, shop);
            return true;
        }

        if (gone.LastError is not null)
        {
            TellOfMore(books, gone, services, shop);
        }

        if (gone.AmountMinor == 0)
        {
            return true;
        }

        var why = Languages.In(Languages.Usual.Name, () => PaperLines.Why(gone.Reason));
        services
            .GetRequiredService<JournalStore>()
            .Write(
                "shop",
                $"order {books.Order.Number}",
                $"refunded {PaymentLetters.Amount(gone.AmountMinor, books)}: {why}"
            );
        PaymentLetters.Refunded(services.GetRequiredService<OutboxStore>(), books.Order, gone, shop);
        return true;
    }

    private DateTime Later(Refund refund) => clock.NowUtc.AddMinutes(1 << Math.Min(refund.Attempts, 8));

    private Task<Result<bool>> Change(
        string orderId,
        Func<OrderBooks, IServiceProvider, ShopSettings, bool> change,
        CancellationToken cancel
    ) => gate.OnBooks<bool>(orderId, (books, services, shop) => change(books, services, shop), cancel);

    [LoggerMessage(Level = LogLevel.Error, Message = "A refund could not be carried")]
    private partial void Failed(Exception fault);
}

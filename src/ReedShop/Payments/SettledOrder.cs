using ReedShop.Orders;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Quotes;
using ReedShop.Shop;
using ReedShop.Vouchers;
using ReedShop.Workshop;

namespace ReedShop.Payments;

/// <summary>What a settled session does to its order, within one change of the bench.</summary>
public sealed class SettledOrder(
    BooksStore booksStore,
    OrderStore orders,
    OutboxStore outbox,
    JournalStore journal,
    PublicAddress address,
    ShopClock clock,
    VoucherCheck vouchers
)
{
    public async Task<Result<SettleMove>> Apply(
        BenchFacts facts,
        string sessionId,
        StripeSession told,
        CancellationToken cancel
    )
    {
        var session = await booksStore.SessionToChange(sessionId, cancel);
        var order = (await orders.Find(session.OrderId, cancel))!;
        var books = await booksStore.Open(order, facts.Shop, cancel);
        var move = Settlement.Next(OrderStanding.Of(order), session, told);
        if (move is SettleMove.None or SettleMove.CloseAtStripe)
        {
            return SettleMove.None;
        }

        if (move is SettleMove.Expire or SettleMove.CloseRow)
        {
            session.State = PaySessionState.Expired;
            Expire(facts, books, move);
            return move;
        }

        // The use of a voucher that went back when the order expired may be somebody else's by now.
        var isPriceLeft =
            move != SettleMove.TakeLate || order.Voucher is not { } code || await vouchers.IsLeft(code, cancel);
        return Fault(session, told) is { } fault ? fault : Take(facts, books, session, told, move, isPriceLeft);
    }

    public async Task<Result<SettleMove>> GiveUp(
        BenchFacts facts,
        string sessionId,
        bool tellBuyer,
        CancellationToken cancel
    )
    {
        var session = await booksStore.SessionToChange(sessionId, cancel);
        if (session.IsOver || (session.State == PaySessionState.Open && clock.NowUtc <= session.ExpiresUtc))
        {
            return SettleMove.None;
        }

        var order = (await orders.Find(session.OrderId, cancel))!;
        var books = await booksStore.Open(order, facts.Shop, cancel);
        var move = Settlement.Next(OrderStanding.Of(order), session, StripeSessionState.Expired);
        session.State = PaySessionState.Expired;
        if (Settlement.IsStillWanted(OrderStanding.Of(order), session.Part))
        {
            TellOwner(books, session, facts.Shop);
        }

        Expire(facts, books, move, tellBuyer);
        return move;
    }

    private void TellOwner(OrderBooks books, PaySession session, ShopSettings shop)
    {
        var order = books.Order;
        var (title, what) = session.StripeId is null
            ? ("could not be paid: Stripe opened no page for it", "could not pay for it.")
            : (
                "was not settled: Stripe knows of no payment that fits it",
                "is not waited for any more. Look at Stripe whether money came in, and give it back there."
            );
        PaymentLetters.TellOwner(
            outbox,
            $"order {order.Number}, session {session.Id[..8]}",
            $"Order {order.Number} {title}",
            $"{session.LastError}. {order.BuyerName} ({order.BuyerEmail}) {what}",
            shop
        );
    }

    private void Expire(BenchFacts facts, OrderBooks books, SettleMove move, bool tellBuyer = true)
    {
        var order = books.Order;
        if (move != SettleMove.Expire || OrderMoves.To(OrderMove.Expire, order.Stage) is not { } expired)
        {
            return;
        }

        order.Stage = expired;
        order.Version++;
        Pegging.Release(facts, order);
        journal.Write("shop", $"order {order.Number}", "not paid in time: expired");
        if (tellBuyer)
        {
            PaymentLetters.Expired(outbox, order, facts.Shop);
        }
    }

    /// <param name="isPriceLeft">An order that had expired may still be had at its price.</param>
    private SettleMove Take(
        BenchFacts facts,
        OrderBooks books,
        PaySession session,
        StripeSession told,
        SettleMove move,
        bool isPriceLeft
    )
    {
        var order = books.Order;
        var promise = move == SettleMove.TakeLate && isPriceLeft ? Again(facts, order) : null;
        var isKept =
            promise is not null
            || move == SettleMove.Confirm
            || (move == SettleMove.TakeBalance && order.PaidUtc is null);
        session.StripeId = session.State == PaySessionState.Paid ? session.StripeId : told.Id;
        if (books.Settle(session, told.PaymentId!, isKept) is not { } payment)
        {
            return SettleMove.None;
        }

        journal.Write(
            "shop",
            $"order {order.Number}",
            $"paid by card: {PaymentLetters.Amount(payment.AmountMinor, books)}"
        );
        if (!isKept)
        {
            PaymentLetters.PaidTooLate(outbox, order, payment, facts.Shop);
        }
        else if (move == SettleMove.Confirm)
        {
            Accept(facts, books, OrderMove.Settle);
        }
        else if (promise is not null)
        {
            Keep(facts, order, promise);
            Accept(facts, books, OrderMove.SettleLate);
        }

        return move;
    }

    private void Accept(BenchFacts facts, OrderBooks books, OrderMove move)
    {
        var order = books.Order;
        order.Stage = OrderMoves.To(move, order.Stage)!.Value;
        order.Version++;
        Pegging.CatchUp(facts, order);
        journal.Write("shop", $"order {order.Number}", $"accepted, to ship by {order.ShipBy:yyyy-MM-dd}");
        PaymentLetters.Confirmed(outbox, books, facts, address.Of($"/orders/{order.Id}"));
    }

    /// <summary>The same day with the same chance, by the evenings that are free now.</summary>
    private static Promise? Again(BenchFacts facts, Order order) =>
        StillKept.By(
            ShopStates.Of(facts),
            order.Ask([.. order.Lines.OrderBy(line => line.Position).Select(line => line.Ask(line.Quantity))]),
            order.ShipBy,
            order.Chance
        );

    private static void Keep(BenchFacts facts, Order order, Promise promise)
    {
        (order.FinishBy, order.FirstTry) = (promise.FinishBy, promise.FirstTry);
        facts.Orders.Add(order);
        Replanner.Move(facts, promise.Moved);
        foreach (var (line, promised) in order.Lines.OrderBy(line => line.Position).Zip(promise.Lines))
        {
            Pegging.Keep(facts, order, line, promised);
        }
    }

    /// <summary>Cannot be, since the amount was ours; if it is, no order is taken up on the strength of it.</summary>
    private static Refusal? Fault(PaySession session, StripeSession told) =>
        told.PaymentId is not null
        && told.Currency == session.Currency
        && told.AmountSent == CardMoney.Of(session.Currency)!.ToStripe(session.AmountMinor)
            ? null
            : new Refusal(RefusalKind.RuleBroken, "Stripe names another amount than was asked for.");
}

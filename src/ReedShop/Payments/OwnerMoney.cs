using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Idempotency;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <param name="Amount">In the order's currency; all that can be given back where it is missing.</param>
/// <param name="Note">A word to the buyer.</param>
public sealed record RefundWish(Money? Amount = null, string? Note = null);

/// <summary>What the owner does with the money of an order by hand.</summary>
public sealed class OwnerMoney(
    FactsGate gate,
    Refunding refunding,
    Settling settling,
    KeyedRequests requests,
    BooksStore store,
    OrderStore orders,
    ShopStore shops
)
{
    private const int MostNoteCharacters = 500;

    /// <summary>An invoice was paid, in cash or by transfer; whoever has the page at Stripe open can not pay it again.</summary>
    public async Task<Result<OrderView>> MarkPaid(string id, VersionCheck check, CancellationToken cancel)
    {
        var paid = await TakeByHand(id, check, cancel);
        if (!paid.IsRefused)
        {
            await settling.SettleOrder(id, cancel);
        }

        return paid;
    }

    private Task<Result<OrderView>> TakeByHand(string id, VersionCheck check, CancellationToken cancel) =>
        gate.OnBooks<OrderView>(
            id,
            (books, services, _) =>
            {
                var order = books.Order;
                if ((check(order.Version) ?? PaidFault(books)) is { } fault)
                {
                    return fault;
                }

                if (order.PaidUtc is null)
                {
                    books.Take(PaymentWay.ByHand, books.ToPay, null);
                    services
                        .GetRequiredService<JournalStore>()
                        .Write("owner", $"order {order.Number}", "marked as paid");
                }

                return OrderView.Of(order);
            },
            cancel
        );

    /// <summary>Writes the invoice of an order that is paid by invoice, to be sent with the parcel or before.</summary>
    public Task<Result<MoneyView>> WriteInvoice(string id, CancellationToken cancel) =>
        gate.OnBooks<MoneyView>(
            id,
            (books, services, _) =>
            {
                if (PaidFault(books) is { } fault)
                {
                    return fault;
                }

                if (books.Invoice() is { } paper)
                {
                    services
                        .GetRequiredService<JournalStore>()
                        .Write("owner", $"order {books.Order.Number}", $"invoice {paper.Number} written");
                }

                return MoneyView.Of(books);
            },
            cancel
        );

    /// <summary>Gives something back, or all of it.</summary>
    /// <param name="key">Of the form it was sent with: the same form sent twice is one refund.</param>
    public async Task<Result<MoneyView>> GiveBack(
        string id,
        RefundWish wish,
        CancellationToken cancel,
        string? key = null
    )
    {
        var asked = await gate.OnBooks<MoneyView>(
            id,
            (books, services, _) =>
            {
                if (books.Refunds.Exists(refund => refund.Id == key))
                {
                    return MoneyView.Of(books);
                }

                var amount = wish.Amount?.Amount ?? books.Ledger.Refundable;
                if (GiveBackFault(books, wish, amount) is { } fault)
                {
                    return fault;
                }

                var shipped = books.Order.Stage == OrderStage.Shipped;
                books.AskBack(amount, shipped ? RefundReason.Goodwill : RefundReason.Owner, Note(wish), key);
                services
                    .GetRequiredService<JournalStore>()
                    .Write(
                        "owner",
                        $"order {books.Order.Number}",
                        $"gives back {PaymentLetters.Amount(amount, books)}"
                    );
                return MoneyView.Of(books);
            },
            cancel
        );
        if (asked.IsRefused)
        {
            return asked;
        }

        await refunding.CarryDue(id, cancel);
        return await Look(id, cancel);
    }

    /// <summary>
    /// The owner paid it back in cash or by transfer. Not while it is on its way to a card; and what Stripe refused is looked
    /// for there first, lest it was done after all.
    /// </summary>
    public async Task<Result<MoneyView>> PaidBack(string id, string refundId, CancellationToken cancel)
    {
        if (await store.FindRefund(refundId, cancel) is { } refund)
        {
            var payment = await store.PaymentOf(refund, cancel);
            if (payment.StripeId is { } stripeId && (await LookFirst(stripeId, cancel)).Refusal is { } busy)
            {
                return busy;
            }
        }

        return await OnRefund(id, refundId, PaidBack, cancel);
    }

    /// <summary>What is found is no answer to the request: that is what becomes of the refund.</summary>
    private async Task<Result<bool>> LookFirst(string stripeId, CancellationToken cancel)
    {
        requests.Current = null;
        return await refunding.Reconcile(stripeId, cancel);
    }

    private static Refusal? PaidBack(OrderBooks books, Refund refund, IServiceProvider services, ShopSettings shop)
    {
        if (!books.MayBePaidByHand(refund))
        {
            return Refusal.Stage("It is on its way to the card.", "a refund that Stripe refused");
        }

        books.GoneBack(refund, null);
        PaymentLetters.Refunded(services.GetRequiredService<OutboxStore>(), books.Order, refund, shop);
        services
            .GetRequiredService<JournalStore>()
            .Write("owner", $"order {books.Order.Number}", "marked a refund as paid back by hand");
        return null;
    }

    /// <summary>What kept Stripe from refunding has been put right.</summary>
    public async Task<Result<MoneyView>> TryAgain(string id, string refundId, CancellationToken cancel)
    {
        var again = await OnRefund(
            id,
            refundId,
            (_, refund, _, _) =>
            {
                if (refund.State == RefundState.Refused)
                {
                    (refund.State, refund.NextTryUtc) = (RefundState.Wanted, refund.AskedUtc);
                }

                return null;
            },
            cancel
        );
        await refunding.CarryDue(id, cancel);
        return again.IsRefused ? again : await Look(id, cancel);
    }

    public async Task<Result<MoneyView>> Look(string id, CancellationToken cancel) =>
        await orders.Find(id, cancel) is { } order
            ? MoneyView.Of(await store.Open(order, await shops.Get(cancel), cancel))
            : OrderStore.Missing;

    /// <summary>The refunds of an order that its owner may have paid back by hand.</summary>
    public async Task<IReadOnlySet<string>> ByHand(Order order, CancellationToken cancel)
    {
        var books = await store.Open(order, await shops.Get(cancel), cancel);
        return books.Refunds.Where(books.MayBePaidByHand).Select(refund => refund.Id).ToHashSet(StringComparer.Ordinal);
    }

    private Task<Result<MoneyView>> OnRefund(
        string id,
        string refundId,
        Func<OrderBooks, Refund, IServiceProvider, ShopSettings, Refusal?> change,
        CancellationToken cancel
    ) =>
        gate.OnBooks<MoneyView>(
            id,
            (books, services, shop) =>
            {
                if (books.Refunds.Find(row => row.Id == refundId) is not { } refund)
                {
                    return Refusal.Missing("such refund");
                }

                if (refund.State is not (RefundState.Wanted or RefundState.Refused))
                {
                    return Refusal.Stage("The refund is done.", "a refund that waits");
                }

                return change(books, refund, services, shop) is { } fault ? fault : MoneyView.Of(books);
            },
            cancel
        );

    private static Refusal? PaidFault(OrderBooks books) =>
        books.Order.Stage == OrderStage.AwaitingPayment
            ? Refusal.Stage("The order waits to be paid by card.", "an order that is accepted; or cancel this one")
        : books.Order.Stage is OrderStage.Cancelled or OrderStage.Expired && books.Order.Parcels.Count == 0
            ? Refusal.Stage("A cancelled order is not paid.", "an order that is open or shipped")
        : books.Order.PaidUtc is null && books.ToPay <= 0
            ? Refusal.Stage("Nothing of this order is to be paid.", "an order that costs something")
        : null;

    private static Refusal? GiveBackFault(OrderBooks books, RefundWish wish, long amount)
    {
        var most = books.Ledger.Refundable;
        return wish.Amount is { } money && money.Currency != books.Order.Currency
                ? Refusal.Invalid("amount.currency", "The order was paid in another currency.", books.Order.Currency)
            : amount < 1 || amount > most
                ? Refusal.Invalid(
                    "amount.amount",
                    "So much cannot be given back.",
                    most < 1
                        ? "nothing is left to give back"
                        : Words.Named($"up to {new Money(most, books.Order.Currency)}", $"1 to {most}")
                )
            : CardMoney.Of(books.Order.Currency) is { } card && card.Payable(amount) != amount
                ? Refusal.Invalid(
                    "amount.amount",
                    "Cards are not paid back in so fine an amount.",
                    Words.Named($"{new Money(card.Payable(amount), books.Order.Currency)}", $"{card.Payable(amount)}")
                )
            : wish.Note?.Length > MostNoteCharacters
                ? Refusal.Invalid("note", "The note is too long.", $"up to {MostNoteCharacters} characters")
            : null;
    }

    private static string? Note(RefundWish wish) => string.IsNullOrWhiteSpace(wish.Note) ? null : wish.Note.Trim();
}

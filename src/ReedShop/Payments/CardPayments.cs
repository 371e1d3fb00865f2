using Microsoft.Extensions.Options;
using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>What accepting and cancelling an order ask of its payment, within their own change of the bench.</summary>
public sealed class CardPayments(
    IOptions<StripeOptions> options,
    BooksStore store,
    OutboxStore outbox,
    PublicAddress address
)
{
    /// <summary>More would let one buyer hold the evenings of a week without paying.</summary>
    public const int MostAwaitedPerBuyer = 2;

    /// <summary>Whether orders of this price are paid by card; else an invoice is sent.</summary>
    public bool Takes(string currency, long priceMinor) =>
        options.Value.IsOn && CardMoney.Of(currency) is { } card && card.Payable(priceMinor) >= card.Least;

    /// <summary>A new order waits to be paid.</summary>
    public async Task Await(Order order, ShopSettings shop, CancellationToken cancel)
    {
        var books = await store.Open(order, shop, cancel);
        var first = PayAmounts.Deposit(order, shop.Payment.DepositShare);
        var session = books.Ask(first < PayAmounts.Whole(order) ? PayPart.Deposit : PayPart.Whole, first);
        PaymentLetters.Held(outbox, order, session, shop, address.Of($"/orders/{order.Id}"));
    }

    /// <summary>
    /// What goes back when an order is cancelled, by the shop's terms; the refund is carried out afterwards. An open
    /// invoice is owed for what has left only.
    /// </summary>
    public async Task GiveBack(Order order, ShopSettings shop, bool byBuyer, CancellationToken cancel)
    {
        var books = await store.Open(order, shop, cancel);
        books.LetGo();
        var back = books.Ledger.Refundable - PayAmounts.KeptWhenCancelled(order, shop.Payment.KeptShare, byBuyer);
        if (back > 0)
        {
            books.AskBack(back, RefundReason.Cancelled);
        }
    }
}

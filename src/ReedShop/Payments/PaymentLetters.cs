using ReedShop.Orders;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Shop;
using ReedShop.Workshop;
using static ReedShop.Payments.MoneyLetterTexts;

namespace ReedShop.Payments;

/// <summary>
/// Letters about money. They are written in the transaction that moves it, to buyers in the language of their order, to the
/// owner in English.
/// </summary>
internal static class PaymentLetters
{
    /// <summary>Goes out at night too: by the morning the order would not be held any more.</summary>
    public static void Held(OutboxStore outbox, Order order, PaySession session, ShopSettings shop, string page) =>
        Add(
            outbox,
            "payment-wanted",
            order,
            BuyersLetter.Of(
                order,
                shop,
                () => Say["Held.title", order.Number, shop.Name],
                () =>
                    [
                        $"{Say["Held.is", order.Number]} {Wanted(session, order)}\n{page}",
                        Say["Held.then", Words.FullDay(order.ShipBy)],
                    ]
            ),
            asked: true
        );

    /// <summary>What the letter of an order without card says, and what came in. The buyer has just paid and waits for it.</summary>
    public static void Confirmed(OutboxStore outbox, OrderBooks books, BenchFacts facts, string page)
    {
        var order = books.Order;
        var paid = Languages.In(
            order.Language,
            () => Say[order.PaidUtc is null ? "Paid.deposit" : "Paid.all", Said(books.Ledger.Kept, order)]
        );
        var letter = new OrderMessages(facts.Shop, facts.Models).Confirmed(order, page, paid);
        Add(outbox, "order-confirmed", order, letter, asked: true);
    }

    public static void Expired(OutboxStore outbox, Order order, ShopSettings shop) =>
        Add(
            outbox,
            "payment-expired",
            order,
            BuyersLetter.Of(
                order,
                shop,
                () => Say["Expired.title", order.Number, shop.Name],
                () => [$"{Say["Expired.is", order.Number]} {Say["Expired.again"]}"]
            )
        );

    /// <summary>It came after the order had ended, or had been paid another way.</summary>
    public static void PaidTooLate(OutboxStore outbox, Order order, Payment payment, ShopSettings shop)
    {
        var (why, end) = order.Stage is OrderStage.Cancelled or OrderStage.Expired
            ? ("Back.late", "Back.sorry")
            : ("Back.twice", "Back.stands");
        var letter = BuyersLetter.Of(
            order,
            shop,
            () => Say["Back.title", order.Number, shop.Name],
            () => [$"{Say[why, Said(payment.AmountMinor, order), order.Number]} {Say["Back.all"]} {Say[end]}"]
        );
        Add(outbox, "paid-too-late", order, letter, more: $", payment {payment.Id[..8]}");
    }

    public static void Refunded(OutboxStore outbox, Order order, Refund refund, ShopSettings shop) =>
        Add(
            outbox,
            "refunded",
            order,
            BuyersLetter.Of(
                order,
                shop,
                () => Say["Refunded.title", order.Number, shop.Name, Said(refund.AmountMinor, order)],
                () => [Say["Refunded.is", Said(refund.AmountMinor, order), order.Number], refund.Note]
            ),
            more: $", refund {refund.Id[..8]}"
        );

    public static void BalanceWanted(
        OutboxStore outbox,
        Order order,
        long amountMinor,
        ShopSettings shop,
        string page
    ) =>
        Add(
            outbox,
            OrderMessages.BalanceWanted,
            order,
            BuyersLetter.Of(
                order,
                shop,
                () => Say["Balance.title", order.Number, shop.Name],
                () => [$"{Say["Balance.is", order.Number, Said(amountMinor, order)]}\n{page}"]
            )
        );

    /// <summary>To the owner: something that only a person can put right.</summary>
    public static void TellOwner(OutboxStore outbox, string subject, string title, string text, ShopSettings shop) =>
        outbox.Add("payment-trouble", subject, shop.OwnerEmail, title, text);

    /// <summary>"12.50 EUR": for the owner and the journal.</summary>
    public static string Amount(long amountMinor, OrderBooks books) =>
        new Money(amountMinor, books.Order.Currency).ToString();

    /// <summary>As the buyer's country writes it.</summary>
    private static string Said(long amountMinor, Order order) => Words.Money(new Money(amountMinor, order.Currency));

    private static string Wanted(PaySession session, Order order) =>
        session.Part == PayPart.Deposit
            ? Say["Held.payDeposit", Said(session.AmountMinor, order), Said(PayAmounts.Whole(order), order)]
            : Say["Held.pay", Said(session.AmountMinor, order)];

    private static void Add(
        OutboxStore outbox,
        string kind,
        Order order,
        (string Title, string Text) letter,
        bool asked = false,
        string more = ""
    ) =>
        outbox.Add(
            kind,
            $"order {order.Number}{more}",
            order.BuyerEmail,
            letter.Title,
            letter.Text,
            asked,
            language: order.Language
        );
}

using ReedShop.Orders;
using ReedShop.Platform.Http;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>Letters about money. They are written in the transaction that moves it.</summary>
internal static class PaymentLetters
{
    public const string BalanceKind = "balance-wanted";

    public static void Held(OutboxStore outbox, OrderBooks books, PaySession session, ShopSettings shop, string page) =>
        Write(
            outbox,
            "payment-wanted",
            books.Order,
            $"Order {books.Order.Number} at {shop.Name} is held for you: please pay",
            FormattableString.Invariant(
                $"""
                your order {books.Order.Number} is held for half an hour. Please pay {Say(session.AmountMinor, books)}{(
                    session.Part == PayPart.Deposit ? $" of {Say(PayAmounts.Whole(books.Order), books)} in all" : ""
                )} by card, from its page:
                {page}

                When it is paid we write to you once more; it is promised to ship by {books.Order.ShipBy:yyyy-MM-dd}.
                """
            ),
            shop
        );

    public static void Confirmed(OutboxStore outbox, OrderBooks books, ShopSettings shop, string page) =>
        Write(
            outbox,
            "order-confirmed",
            books.Order,
            $"Order {books.Order.Number} at {shop.Name}: paid, to ship by {books.Order.ShipBy:yyyy-MM-dd}",
            FormattableString.Invariant(
                $"""
                thank you: {Say(books.Ledger.Kept, books)} came in for your order {books.Order.Number}.
                It is promised to ship by {books.Order.ShipBy:dddd d MMMM yyyy}. Dates like this are kept about
                {(int)Math.Floor(books.Order.Chance * 100)} times in 100; you are told at once should it move.
                Its page, for you alone, has the invoice too:
                {page}
                """
            ),
            shop
        );

    public static void Expired(OutboxStore outbox, OrderBooks books, ShopSettings shop) =>
        Write(
            outbox,
            "payment-expired",
            books.Order,
            $"Order {books.Order.Number} at {shop.Name} was not paid and is not held any more",
            $"""
            your order {books.Order.Number} was not paid in time, so its evenings at the bench are free again.
            No money was taken. You are welcome to order again.
            """,
            shop
        );

    public static void PaidTooLate(OutboxStore outbox, OrderBooks books, Payment payment, ShopSettings shop) =>
        Write(
            outbox,
            "paid-too-late",
            books.Order,
            $"Order {books.Order.Number} at {shop.Name}: your payment goes back to you",
            $"""
            your payment of {Say(
                payment.AmountMinor,
                books
            )} came after order {books.Order.Number} had ended, and it cannot be taken
            up again as it was promised. All of it goes back to your card; a bank may take some days to show it.
            We are sorry. You are welcome to order again.
            """,
            shop,
            $", payment {payment.Id[..8]}"
        );

    public static void Refunded(OutboxStore outbox, OrderBooks books, Refund refund, ShopSettings shop) =>
        Write(
            outbox,
            "refunded",
            books.Order,
            $"Order {books.Order.Number} at {shop.Name}: {Say(refund.AmountMinor, books)} went back to you",
            $"""
            {Say(
                refund.AmountMinor,
                books
            )} of what you paid for order {books.Order.Number} went back to you. A bank may take
            some days to show it.{(refund.Note is { } note ? $"\n\n{note}" : "")}
            """,
            shop,
            $", refund {refund.Id[..8]}"
        );

    public static void BalanceWanted(
        OutboxStore outbox,
        OrderBooks books,
        long amountMinor,
        ShopSettings shop,
        string page
    ) =>
        Write(
            outbox,
            BalanceKind,
            books.Order,
            $"Order {books.Order.Number} at {shop.Name} is ready: please pay the rest",
            $"""
            the reeds of your order {books.Order.Number} lie ready. They are shipped once the rest of the price,
            {Say(amountMinor, books)}, is paid, from the page of the order:
            {page}
            """,
            shop
        );

    /// <summary>To the owner: something that only a person can put right.</summary>
    public static void TellOwner(OutboxStore outbox, string subject, string title, string text, ShopSettings shop) =>
        outbox.Add("payment-trouble", subject, shop.OwnerEmail, title, text);

    public static string Say(long amountMinor, OrderBooks books) =>
        new Money(amountMinor, books.Order.Currency).ToString();

    private static void Write(
        OutboxStore outbox,
        string kind,
        Order order,
        string title,
        string text,
        ShopSettings shop,
        string more = ""
    ) =>
        outbox.Add(
            kind,
            $"order {order.Number}{more}",
            order.BuyerEmail,
            title,
            $"Dear {order.BuyerName},\n\n{text}\n\n{shop.Name}\n"
        );
}

using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>Flags a dispute to the owner, who answers it at Stripe; a lost one is money that went back.</summary>
public sealed class Disputing(BooksStore store, StripeDesk desk, Settling settling, FactsGate gate, ShopClock clock)
{
    public async Task<Result<bool>> Look(string id, CancellationToken cancel)
    {
        var asked = await desk.Dispute(id, cancel);
        if (asked.Value is not { } told)
        {
            return new Refusal(RefusalKind.Busy, asked.Fault!);
        }

        if (told.PaymentId is { } paid && (await settling.Know(paid, cancel)).Refusal is { } unknown)
        {
            return unknown;
        }

        return await store.FindPayment(told.PaymentId, cancel) is not { } payment
            ? false
            : await gate.OnBooks<bool>(
                payment.OrderId,
                (books, services, shop) =>
                {
                    var dispute =
                        books.Disputes.Find(row => row.Id == id) ?? Flag(books, payment, told, services, shop);
                    var wasOpen = dispute.IsOpen;
                    (dispute.Status, dispute.Reason) = (told.Status, told.Reason);
                    if (wasOpen && !dispute.IsOpen)
                    {
                        Close(books, payment, dispute, services);
                    }

                    return true;
                },
                cancel
            );
    }

    private Dispute Flag(
        OrderBooks books,
        Payment payment,
        StripeDispute told,
        IServiceProvider services,
        ShopSettings shop
    )
    {
        var dispute = new Dispute
        {
            Id = told.Id,
            OrderId = books.Order.Id,
            PaymentId = payment.Id,
            AmountMinor = CardMoney.Of(payment.Currency)!.FromStripe(told.AmountSent),
            Reason = told.Reason,
            Status = "needs_response",
            OpenedUtc = clock.NowUtc,
        };
        books.Disputes.Add(dispute);
        services.GetRequiredService<BooksStore>().Add(dispute);
        PaymentLetters.TellOwner(
            services.GetRequiredService<OutboxStore>(),
            $"order {books.Order.Number}, dispute {told.Id}",
            $"Order {books.Order.Number}: the buyer's bank asks for the money back",
            $"{PaymentLetters.Amount(dispute.AmountMinor, books)} of order {books.Order.Number} ({books.Order.BuyerName}) is disputed: "
                + $"{told.Reason}. Answer it at Stripe before its day runs out; the shop cannot do that for you.",
            shop
        );
        services
            .GetRequiredService<JournalStore>()
            .Write("shop", $"order {books.Order.Number}", $"payment disputed: {told.Reason}");
        return dispute;
    }

    private static void Close(OrderBooks books, Payment payment, Dispute dispute, IServiceProvider services)
    {
        services
            .GetRequiredService<JournalStore>()
            .Write("shop", $"order {books.Order.Number}", $"dispute {dispute.Status}");
        if (dispute.Status == "lost")
        {
            var ours = books.Payments.Single(row => row.Id == payment.Id);
            books.FoundGone(ours, dispute.AmountMinor, dispute.Id, RefundReason.DisputeLost);
        }
    }
}

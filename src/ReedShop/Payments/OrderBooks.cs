using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Platform.Layout;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>
/// The money of one order. Every move of money writes its paper in the same breath, so that at no moment
/// captured - refunded and invoiced - credited differ.
/// </summary>
public sealed partial class OrderBooks(Order order, BookKeeping keeping)
{
    public Order Order => order;

    public required List<PaySession> Sessions { get; init; }

    public required List<Payment> Payments { get; init; }

    public required List<Refund> Refunds { get; init; }

    public required List<Paper> Papers { get; init; }

    public required List<Dispute> Disputes { get; init; }

    public Ledger Ledger => Ledger.Of(Payments, Refunds, Papers);

    /// <summary>Asks the buyer to pay; the session is opened at Stripe once this is saved.</summary>
    public PaySession Ask(PayPart part, long amountMinor)
    {
        var session = new PaySession
        {
            Id = Links.New(),
            OrderId = order.Id,
            Part = part,
            AmountMinor = amountMinor,
            Currency = order.Currency,
            MadeUtc = keeping.NowUtc,
            ExpiresUtc = keeping.NowUtc + PaySessions.Life,
            AskNextUtc = keeping.NowUtc,
        };
        return Kept(Sessions, session);
    }

    /// <summary>Writes down money that came in, with its invoice. Null if it stands in the book already.</summary>
    public Payment? Take(PaymentWay way, long amountMinor, string? stripeId)
    {
        if (stripeId is not null && Payments.Exists(payment => payment.StripeId == stripeId))
        {
            return null;
        }

        var payment = Kept(
            Payments,
            new Payment
            {
                Id = Links.New(),
                OrderId = order.Id,
                Way = way,
                AmountMinor = amountMinor,
                Currency = order.Currency,
                StripeId = stripeId,
                AtUtc = keeping.NowUtc,
            }
        );
        PayPapers(payment);
        MarkPaid();
        return payment;
    }

    /// <summary>What is still to be paid; of a cancelled order for what had left.</summary>
    public long ToPay =>
        (
            order.Stage == OrderStage.Cancelled
                ? PayAmounts.KeptWhenCancelled(order, share: 0, byBuyer: false)
                : PayAmounts.Whole(order)
        ) - Ledger.Paid;

    /// <summary>Writes the invoice before it is paid. Null where it has been written, or nothing is to be paid.</summary>
    public Paper? Invoice() =>
        order.PaysBeforeShipping || ToPay <= 0 || Ledger.Owed > 0
            ? null
            : Write(PaperKind.Invoice, null, ToPay, () => PaperLines.Invoice(order, ToPay, keeping.Models));

    /// <summary>What a cancelled order does not owe any more is taken off its open invoice.</summary>
    public Paper? LetGo() =>
        Ledger.Owed - Math.Max(ToPay, 0) is > 0 and var free
            ? Write(PaperKind.CreditNote, null, free, () => PaperLines.LetGo(order, free))
            : null;

    /// <summary>What a paid session means for the money. Null if it stood in the book already.</summary>
    /// <param name="isKept">The order stands, or stands again; otherwise the money goes back.</param>
    public Payment? Settle(PaySession session, string stripePayment, bool isKept)
    {
        session.State = PaySessionState.Paid;
        var payment = Take(PaymentWay.Card, session.AmountMinor, stripePayment);
        if (payment is not null && !isKept)
        {
            var hasEnded = order.Stage is OrderStage.Cancelled or OrderStage.Expired;
            AskBack(payment, hasEnded ? RefundReason.PaidTooLate : RefundReason.PaidTwice);
        }

        return payment;
    }

    private void MarkPaid()
    {
        if (order.PaidUtc is null && ToPay <= 0)
        {
            order.PaidUtc = keeping.NowUtc;
            order.Version++;
        }
    }

    /// <summary>A payment settles the invoice that waits for it, or is invoiced as it comes.</summary>
    private void PayPapers(Payment payment)
    {
        if (Ledger.Owed != payment.AmountMinor)
        {
            Write(
                PaperKind.Invoice,
                payment,
                payment.AmountMinor,
                () => PaperLines.Invoice(order, payment.AmountMinor, keeping.Models)
            );
            return;
        }

        foreach (var paper in Papers.Where(paper => paper.PaymentId is null))
        {
            paper.PaymentId = payment.Id;
        }
    }

    private Paper Write(
        PaperKind kind,
        Payment? payment,
        long amountMinor,
        Func<IReadOnlyList<PaperLine>> lines,
        Refund? refund = null
    ) =>
        Kept(
            Papers,
            new Paper
            {
                Id = Links.New(),
                Kind = kind,
                Number = keeping.NextNumber(kind),
                OrderId = order.Id,
                OrderNumber = order.Number,
                AmountMinor = amountMinor,
                Currency = order.Currency,
                IssuedOn = keeping.Today,
                PaymentId = payment?.Id,
                RefundId = refund?.Id,
                IsGoodwill = refund?.Reason == RefundReason.Goodwill,
                // Written once, in the language of the order: no later wording changes what it says.
                Content = Languages.In(order.Language, () => Content(kind, amountMinor, lines())),
            }
        );

    private PaperContent Content(PaperKind kind, long amountMinor, IReadOnlyList<PaperLine> lines) =>
        new(
            order.Language,
            PaperWords.Of(kind),
            keeping.ShopName,
            keeping.ShopEmail,
            order.BuyerName,
            order.Address.Lines(),
            lines,
            keeping.Note,
            PaperTax.Of(keeping.Tax.Name, keeping.Tax.Share, amountMinor)
        );

    private T Kept<T>(List<T> rows, T row)
        where T : class
    {
        rows.Add(row);
        keeping.Keep(row);
        return row;
    }
}

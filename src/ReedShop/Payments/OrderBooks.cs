using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Http;
using ReedShop.Shop;

namespace ReedShop.Payments;

/// <summary>What it takes to write rows: the day, the heading of papers, and where rows go.</summary>
/// <param name="NextNumber">The next number of a kind of paper, given once.</param>
/// <param name="Keep">Adds a row to what the running transaction saves.</param>
public sealed record BookKeeping(
    DateTime NowUtc,
    DateOnly Today,
    string ShopName,
    string ShopEmail,
    Func<PaperKind, int> NextNumber,
    Action<object> Keep
)
{
    /// <summary>What the shop prints under its papers, such as its tax number.</summary>
    public string? Note { get; init; }
}

/// <summary>
/// The money of one order. Every move of money writes its paper in the same breath, so that at no moment
/// captured - refunded and invoiced - credited differ.
/// </summary>
public sealed class OrderBooks(Order order, BookKeeping keeping)
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
        Write(PaperKind.Invoice, payment, amountMinor, PaperLines.Invoice(order, amountMinor));
        MarkPaid();
        return payment;
    }

    /// <summary>
    /// Decides that money goes back. It counts once it has gone. An amount larger than one payment is taken from several,
    /// the newest first.
    /// </summary>
    public IReadOnlyList<Refund> AskBack(long amountMinor, RefundReason reason, string? note = null)
    {
        if (amountMinor > Ledger.Refundable)
        {
            throw new ArgumentOutOfRangeException(nameof(amountMinor), amountMinor, "More than was paid.");
        }

        var asked = new List<Refund>();
        foreach (var payment in Payments.OrderByDescending(payment => payment.AtUtc).ThenBy(payment => payment.Id))
        {
            var part = Math.Min(amountMinor - asked.Sum(refund => refund.AmountMinor), Left(payment));
            if (part > 0)
            {
                asked.Add(AskBack(payment, part, reason, note));
            }
        }

        return asked;
    }

    /// <summary>All that is left of one payment goes back.</summary>
    public Refund AskBack(Payment payment, RefundReason reason) => AskBack(payment, Left(payment), reason, null);

    /// <summary>The money has gone back. A second word of it changes nothing.</summary>
    public bool GoneBack(Refund refund, string? stripeId)
    {
        if (refund.State is not (RefundState.Wanted or RefundState.Refused))
        {
            return false;
        }

        (refund.State, refund.StripeId, refund.DoneUtc) = (RefundState.Done, stripeId, keeping.NowUtc);
        refund.LastError = null;
        var payment = Payments.Single(payment => payment.Id == refund.PaymentId);
        Write(PaperKind.CreditNote, payment, refund.AmountMinor, PaperLines.CreditNote(order, refund), refund);
        return true;
    }

    /// <summary>Money that went back without the shop's doing: at Stripe, or by the buyer's bank.</summary>
    public Refund? FoundGone(Payment payment, long amountMinor, string stripeId, RefundReason reason)
    {
        if (Refunds.Exists(refund => refund.StripeId == stripeId))
        {
            return null;
        }

        MakeRoom(payment, amountMinor);
        var gone = Math.Min(amountMinor, Left(payment));
        if (gone <= 0)
        {
            return null;
        }

        var refund = AskBack(payment, gone, reason, null);
        GoneBack(refund, stripeId);
        return refund;
    }

    /// <summary>The buyer's bank sent a refund back: the shop has the money again, and invoices it again.</summary>
    public bool CameBack(Refund refund)
    {
        if (refund.State != RefundState.Done)
        {
            return false;
        }

        refund.State = RefundState.Returned;
        var payment = Payments.Single(payment => payment.Id == refund.PaymentId);
        Write(PaperKind.Invoice, payment, refund.AmountMinor, PaperLines.CameBack(order, refund), refund);
        return true;
    }

    /// <summary>What is left of one payment that no refund has spoken for.</summary>
    public long Left(Payment payment) =>
        payment.AmountMinor
        - Refunds
            .Where(refund => refund.PaymentId == payment.Id)
            .Where(refund => refund.State is not (RefundState.Returned or RefundState.Dropped))
            .Sum(refund => refund.AmountMinor);

    /// <summary>What was decided and not done yet gives way to what has been done; the rest of it stays decided.</summary>
    private void MakeRoom(Payment payment, long amountMinor)
    {
        foreach (var refund in Refunds.Where(r => r.PaymentId == payment.Id).ToArray())
        {
            var missing = amountMinor - Left(payment);
            if (missing > 0 && refund.State is (RefundState.Wanted or RefundState.Refused))
            {
                refund.State = RefundState.Dropped;
                if (refund.AmountMinor > missing)
                {
                    AskBack(payment, refund.AmountMinor - missing, refund.Reason, refund.Note);
                }
            }
        }
    }

    private Refund AskBack(Payment payment, long amountMinor, RefundReason reason, string? note) =>
        Kept(
            Refunds,
            new Refund
            {
                Id = Links.New(),
                OrderId = order.Id,
                PaymentId = payment.Id,
                AmountMinor = amountMinor,
                Reason = reason,
                Note = note,
                AskedUtc = keeping.NowUtc,
                NextTryUtc = keeping.NowUtc,
            }
        );

    private void MarkPaid()
    {
        if (order.PaidUtc is null && Ledger.Kept >= PayAmounts.Whole(order))
        {
            order.PaidUtc = keeping.NowUtc;
            order.Version++;
        }
    }

    private void Write(
        PaperKind kind,
        Payment payment,
        long amountMinor,
        IReadOnlyList<PaperLine> lines,
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
                PaymentId = payment.Id,
                RefundId = refund?.Id,
                IsGoodwill = refund?.Reason == RefundReason.Goodwill,
                Content = new PaperContent(
                    keeping.ShopName,
                    keeping.ShopEmail,
                    order.BuyerName,
                    order.Address.Lines(),
                    lines,
                    keeping.Note
                ),
            }
        );

    private T Kept<T>(List<T> rows, T row)
        where T : class
    {
        rows.Add(row);
        keeping.Keep(row);
        return row;
    }
}

using ReedShop.Platform;
using ReedShop.Platform.Http;

namespace ReedShop.Payments;

/// <summary>The money of one order that goes back.</summary>
public sealed partial class OrderBooks
{
    /// <summary>One refund as Stripe tells of it: ours by what was written on it, else by Stripe's own name.</summary>
    /// <returns>The refund that is news: done now, or to be looked at by the owner because it came back.</returns>
    public Refund? Learn(Payment payment, StripeRefund told)
    {
        var ours = Refunds.Find(row => row.StripeId == told.Id) ?? Refunds.Find(row => row.Id == told.Ours);
        var gone =
            ours is null or { State: RefundState.Dropped } || IsAnother(ours, told)
                ? FoundGone(
                    payment,
                    CardMoney.Of(payment.Currency)!.FromStripe(told.AmountSent),
                    told.Id,
                    RefundReason.MadeAtStripe
                )
            : GoneBack(ours, told.Id) ? ours
            : null;
        return told.HasFailed && (gone ?? ours) is { } failed ? CameBack(failed) : gone;
    }

    /// <summary>It was paid back by hand before, or done twice: this money has gone as well.</summary>
    private static bool IsAnother(Refund ours, StripeRefund told) =>
        ours.State == RefundState.Done && ours.StripeId != told.Id;

    /// <summary>
    /// Decides that money goes back. It counts once it has gone. An amount larger than one payment is taken from several,
    /// the newest first.
    /// </summary>
    /// <param name="key">The name of the first of them: asked for under it twice it is one.</param>
    public IReadOnlyList<Refund> AskBack(long amountMinor, RefundReason reason, string? note = null, string? key = null)
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
                asked.Add(AskBack(payment, part, reason, note, asked.Count == 0 ? key : null));
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
        if (refund.AmountMinor > 0)
        {
            Write(
                PaperKind.CreditNote,
                payment,
                refund.AmountMinor,
                () => PaperLines.CreditNote(order, refund),
                refund
            );
        }

        return true;
    }

    /// <summary>
    /// Money that went back without the shop's doing: at Stripe, or by the buyer's bank. What goes beyond all that was left
    /// of the payment, since it had gone back another way before, has nothing to be credited to: it stands beside the refund
    /// as its fault.
    /// </summary>
    public Refund? FoundGone(Payment payment, long amountMinor, string stripeId, RefundReason reason)
    {
        if (Refunds.Exists(refund => refund.StripeId == stripeId))
        {
            return null;
        }

        var decided = MakeRoom(payment, amountMinor);
        var gone = Math.Clamp(amountMinor, 0, Left(payment));
        var why = reason == RefundReason.MadeAtStripe ? decided ?? reason : reason;
        var refund = AskBack(payment, gone, why, null);
        GoneBack(refund, stripeId);
        refund.LastError =
            gone < amountMinor
                ? $"{new Money(amountMinor - gone, order.Currency)} more went back than was left of the payment"
                : null;
        return refund;
    }

    /// <summary>
    /// The buyer's bank sent a refund back: the shop has the money again, invoices it again and still owes it. Only the owner
    /// can say how it is to reach the buyer.
    /// </summary>
    public Refund? CameBack(Refund refund)
    {
        if (refund.State != RefundState.Done)
        {
            return null;
        }

        (refund.State, refund.LastError) = (RefundState.Returned, null);
        if (refund.AmountMinor == 0)
        {
            return null;
        }

        var payment = Payments.Single(payment => payment.Id == refund.PaymentId);
        Write(PaperKind.Invoice, payment, refund.AmountMinor, () => PaperLines.CameBack(order, refund), refund);
        var owed = AskBack(payment, refund.AmountMinor, refund.Reason, refund.Note);
        (owed.State, owed.LastError) = (RefundState.Refused, "The buyer's bank sent it back");
        return owed;
    }

    /// <summary>Money on its way to a card would go back twice.</summary>
    public bool MayBePaidByHand(Refund refund) =>
        refund.State == RefundState.Refused
        || (
            refund.State == RefundState.Wanted
            && Payments.Exists(payment => payment.Id == refund.PaymentId && payment.Way == PaymentWay.ByHand)
        );

    /// <summary>What is left of one payment that no refund has spoken for.</summary>
    public long Left(Payment payment) =>
        payment.AmountMinor
        - Refunds
            .Where(refund => refund.PaymentId == payment.Id)
            .Where(refund => refund.State is not (RefundState.Returned or RefundState.Dropped))
            .Sum(refund => refund.AmountMinor);

    /// <summary>What was decided and not done yet gives way to what has been done; the rest of it stays decided.</summary>
    /// <returns>Why it had been decided: the owner did by hand at Stripe what was to be done.</returns>
    private RefundReason? MakeRoom(Payment payment, long amountMinor)
    {
        RefundReason? decided = null;
        foreach (var refund in Refunds.Where(r => r.PaymentId == payment.Id).ToArray())
        {
            var missing = amountMinor - Left(payment);
            if (missing > 0 && refund.State is (RefundState.Wanted or RefundState.Refused))
            {
                refund.State = RefundState.Dropped;
                decided ??= refund.Reason;
                if (refund.AmountMinor > missing)
                {
                    AskBack(payment, refund.AmountMinor - missing, refund.Reason, refund.Note);
                }
            }
        }

        return decided;
    }

    private Refund AskBack(Payment payment, long amountMinor, RefundReason reason, string? note, string? key = null) =>
        Kept(
            Refunds,
            new Refund
            {
                Id = key ?? Links.New(),
                OrderId = order.Id,
                PaymentId = payment.Id,
                AmountMinor = amountMinor,
                Reason = reason,
                Note = note,
                AskedUtc = keeping.NowUtc,
                NextTryUtc = keeping.NowUtc,
            }
        );
}

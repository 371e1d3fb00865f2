using ReedShop.Orders;

namespace ReedShop.Payments;

public enum SettleMove
{
    /// <summary>Nothing has changed, or it was settled before.</summary>
    None,

    /// <summary>The order waited for this payment: it is accepted.</summary>
    Confirm,

    /// <summary>Nobody paid in time: the order expires and its evenings are free.</summary>
    Expire,

    /// <summary>The session is over and its order does not depend on it.</summary>
    CloseRow,

    /// <summary>Nobody is to pay it any more: it is closed at Stripe.</summary>
    CloseAtStripe,

    /// <summary>Paid after the order had expired: promised afresh, or the money goes back.</summary>
    TakeLate,

    /// <summary>The rest of an order that stands.</summary>
    TakeBalance,

    /// <summary>The order was cancelled or paid otherwise meanwhile: the money goes back.</summary>
    TakeAndGiveBack,
}

/// <summary>What of an order decides what becomes of its payments.</summary>
public readonly record struct OrderStanding(OrderStage Stage, bool IsPaid)
{
    public static OrderStanding Of(Order order) => new(order.Stage, order.PaidUtc is not null);
}

/// <summary>What follows from what Stripe says of a session, whoever made us ask and however often.</summary>
public static class Settlement
{
    /// <summary>
    /// One row may have had several sessions at Stripe, of which only the newest can be paid. Of the others it means nothing
    /// that they expire; should one be paid all the same, beside it, that money goes back.
    /// </summary>
    public static SettleMove Next(OrderStanding order, PaySession session, StripeSession told) =>
        told.Id == session.StripeId ? Next(order, session, told.State)
        : told.State != StripeSessionState.Paid ? SettleMove.None
        : session.State == PaySessionState.Paid ? SettleMove.TakeAndGiveBack
        : Next(order, session, told.State);

    public static SettleMove Next(OrderStanding order, PaySession session, StripeSessionState stripe) =>
        stripe switch
        {
            _ when session.State == PaySessionState.Paid => SettleMove.None,
            StripeSessionState.Paid => Paid(order.Stage, session.Part),
            _ when session.State == PaySessionState.Expired => SettleMove.None,
            StripeSessionState.Expired => Expired(order.Stage, session.Part),
            _ => IsStillWanted(order, session.Part) ? SettleMove.None : SettleMove.CloseAtStripe,
        };

    private static SettleMove Paid(OrderStage order, PayPart part) =>
        (order, part) switch
        {
            (OrderStage.Cancelled, _) => SettleMove.TakeAndGiveBack,
            (_, PayPart.Balance) => SettleMove.TakeBalance,
            (OrderStage.AwaitingPayment, _) => SettleMove.Confirm,
            (OrderStage.Expired, _) => SettleMove.TakeLate,
            _ => SettleMove.TakeAndGiveBack,
        };

    private static SettleMove Expired(OrderStage order, PayPart part) =>
        order == OrderStage.AwaitingPayment && part != PayPart.Balance ? SettleMove.Expire : SettleMove.CloseRow;

    /// <summary>Whether anybody is still to pay it.</summary>
    public static bool IsStillWanted(OrderStanding order, PayPart part) =>
        part == PayPart.Balance
            ? order is { IsPaid: false, Stage: not (OrderStage.Cancelled or OrderStage.Expired) }
            : order.Stage == OrderStage.AwaitingPayment;
}

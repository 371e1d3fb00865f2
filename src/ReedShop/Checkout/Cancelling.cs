using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Checkout;

/// <summary>A buyer's answer after a moved date.</summary>
public enum MovedDateReply
{
    Wait,
    Change,
    Cancel,
}

public sealed record ReplyWish(MovedDateReply Reply);

/// <summary>Cancels orders and takes buyers' replies.</summary>
public sealed class Cancelling(Bench bench)
{
    public Task<Result<OrderView>> Cancel(string id, string who, VersionCheck check, CancellationToken cancel) =>
        Change(id, check, (services, facts, order) => CancelOrder(services, facts, order, who), cancel);

    public Task<Result<OrderView>> Reply(string id, ReplyWish wish, VersionCheck check, CancellationToken cancel) =>
        Change(
            id,
            check,
            (services, facts, order) =>
            {
                if (!order.IsOpen)
                {
                    return Refusal.Stage("The order is closed.", "an open order");
                }

                order.Reply = wish.Reply.ToString().ToLowerInvariant();
                order.Version++;
                services
                    .GetRequiredService<JournalStore>()
                    .Write("buyer", $"order {order.Number}", $"answered: {order.Reply}");
                return wish.Reply == MovedDateReply.Cancel
                    ? CancelOrder(services, facts, order, "buyer")
                    : OrderView.Of(order);
            },
            cancel
        );

    private Task<Result<OrderView>> Change(
        string id,
        VersionCheck check,
        Func<IServiceProvider, BenchFacts, Order, Result<OrderView>> work,
        CancellationToken cancel
    ) =>
        bench.Change(
            async (services, facts, stop) =>
                await services.GetRequiredService<OrderStore>().Find(id, stop) is not { } order
                    ? Refusal.Missing("such order")
                : check(order.Version) is { } fault ? fault
                : work(services, facts, order),
            cancel
        );

    private static Result<OrderView> CancelOrder(IServiceProvider services, BenchFacts facts, Order order, string who)
    {
        if (order.Stage == OrderStage.Cancelled)
        {
            return OrderView.Of(order);
        }

        if (OrderMoves.To(OrderMove.Cancel, order.Stage) is not { } cancelled)
        {
            return Refusal.Stage(
                $"The order is {OrderMoves.Words(order.Stage)}.",
                OrderMoves.AllowedFrom(OrderMove.Cancel)
            );
        }

        order.Stage = cancelled;
        order.Version++;
        Pegging.Release(facts, order);
        services.GetRequiredService<JournalStore>().Write(who, $"order {order.Number}", "cancelled");
        var (title, text) = OrderMessages.Cancelled(order, facts.Shop);
        services
            .GetRequiredService<OutboxStore>()
            .Add("order-cancelled", $"order {order.Number}", order.BuyerEmail, title, text);
        return OrderView.Of(order);
    }
}

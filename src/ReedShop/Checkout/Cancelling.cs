using ReedShop.Orders;
using ReedShop.Payments;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;
using static ReedShop.Checkout.CheckoutTexts;

namespace ReedShop.Checkout;

/// <summary>A buyer's answer after a moved date.</summary>
public enum MovedDateReply
{
    Wait,
    Change,
    Cancel,
}

/// <param name="Note">What the buyer would like instead, or a word to the maker.</param>
public sealed record ReplyWish(MovedDateReply Reply, string? Note = null)
{
    public static MovedDateReply? Parse(string text) =>
        Enum.GetValues<MovedDateReply>()
            .Where(reply => reply.ToString().Equals(text, StringComparison.OrdinalIgnoreCase))
            .Select(reply => (MovedDateReply?)reply)
            .FirstOrDefault();
}

/// <summary>Cancels orders and takes buyers' replies.</summary>
public sealed class Cancelling(Bench bench, Settling settling, Refunding refunding)
{
    private const int MostNoteCharacters = 500;

    public Task<Result<OrderView>> Cancel(string id, string who, VersionCheck check, CancellationToken cancel) =>
        Change(id, check, (services, facts, order, stop) => CancelOrder(services, facts, order, who, stop), cancel);

    public Task<Result<OrderView>> Reply(string id, ReplyWish wish, VersionCheck check, CancellationToken cancel) =>
        Change(
            id,
            check,
            async (services, facts, order, stop) =>
            {
                if (ReplyFault(order, wish) is { } fault)
                {
                    return fault;
                }

                var reply = wish.Reply.ToString().ToLowerInvariant();
                var note = string.IsNullOrWhiteSpace(wish.Note) ? null : wish.Note.Trim();
                if ((order.Reply, order.ReplyNote) == (reply, note))
                {
                    return OrderView.Of(order);
                }

                (order.Reply, order.ReplyNote) = (reply, note);
                order.Version++;
                TellMaker(services, facts, order);
                return wish.Reply == MovedDateReply.Cancel
                    ? await CancelOrder(services, facts, order, "buyer", stop)
                    : OrderView.Of(order);
            },
            cancel
        );

    private static Refusal? ReplyFault(Order order, ReplyWish wish) =>
        !order.IsOpen || order.MovedUtc is null ? Refusal.Stage(Say["NoMovedDate"], Say["NoMovedDate.instead"])
        : wish.Reply == MovedDateReply.Change && string.IsNullOrWhiteSpace(wish.Note)
            ? Refusal.Invalid("note", Say["WhatInstead"], Say["FewWords"])
        : wish.Note?.Length > MostNoteCharacters
            ? Refusal.Invalid("note", Say["NoteTooLong"], Say["CharactersUpTo", MostNoteCharacters])
        : null;

    private static void TellMaker(IServiceProvider services, BenchFacts facts, Order order)
    {
        services.GetRequiredService<JournalStore>().Write("buyer", $"order {order.Number}", $"answered: {order.Reply}");
        services
            .GetRequiredService<OutboxStore>()
            .Add(
                "moved-answered",
                $"order {order.Number}, answer {order.Version}",
                facts.Shop.OwnerEmail,
                $"Order {order.Number}: the buyer answers “{order.Reply}” to the moved date",
                $"""
                {order.BuyerName} ({order.BuyerEmail}) answers “{order.Reply}” to the new date of order {order.Number},
                {order.ShipBy:yyyy-MM-dd}.{(order.ReplyNote is { } note ? $"\n\n{note}" : "")}
                """
            );
    }

    /// <summary>What the change means for the order's money is carried to Stripe once it is saved.</summary>
    private async Task<Result<OrderView>> Change(
        string id,
        VersionCheck check,
        Func<IServiceProvider, BenchFacts, Order, CancellationToken, Task<Result<OrderView>>> work,
        CancellationToken cancel
    )
    {
        var changed = await bench.Change(
            async (services, facts, stop) =>
                await services.GetRequiredService<OrderStore>().Find(id, stop) is not { } order ? OrderStore.Missing
                : check(order.Version) is { } fault ? fault
                : await work(services, facts, order, stop),
            cancel
        );
        if (!changed.IsRefused)
        {
            await settling.SettleOrder(id, cancel);
            await refunding.CarryDue(id, cancel);
        }

        return changed;
    }

    private static async Task<Result<OrderView>> CancelOrder(
        IServiceProvider services,
        BenchFacts facts,
        Order order,
        string who,
        CancellationToken cancel
    )
    {
        if (order.Stage == OrderStage.Cancelled)
        {
            return OrderView.Of(order);
        }

        if (OrderMoves.To(OrderMove.Cancel, order.Stage) is not { } cancelled)
        {
            return Refusal.Stage(
                Say["OrderIs", OrderMoves.Words(order.Stage)],
                OrderMoves.AllowedFrom(OrderMove.Cancel)
            );
        }

        order.Stage = cancelled;
        order.CancelledOn = facts.Today;
        order.Version++;
        Pegging.Release(facts, order);
        await services.GetRequiredService<CardPayments>().GiveBack(order, facts.Shop, who == "buyer", cancel);
        services.GetRequiredService<JournalStore>().Write(who, $"order {order.Number}", "cancelled");
        var (title, text) = new OrderMessages(facts.Shop, facts.Models).Cancelled(order);
        services
            .GetRequiredService<OutboxStore>()
            .Add("order-cancelled", $"order {order.Number}", order.BuyerEmail, title, text, language: order.Language);
        return OrderView.Of(order);
    }
}

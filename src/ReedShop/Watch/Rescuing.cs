using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>Some reeds of an order are to be made elsewhere.</summary>
/// <param name="Batch">Id of the batch they were to come from; none where nothing makes them yet.</param>
/// <param name="FactsVersion">Of the watch it was read from: refused where facts have changed since, as something else would be done.</param>
public sealed record ElsewhereWish(
    string Model,
    Strength Strength,
    int Quantity,
    string? Batch = null,
    long? FactsVersion = null
);

/// <summary>The buyer is to be asked for a strength.</summary>
public sealed record AskWish(string Model, Strength Strength, Strength Also);

/// <summary>What the buyer says to a strength that was asked for.</summary>
/// <param name="Also">The strength that was asked for.</param>
public sealed record StrengthAnswer(string Model, Strength Strength, Strength Also, bool Accept);

/// <summary>Does what helps a promise.</summary>
public sealed class Rescuing(Bench bench)
{
    private const int MostQuartersOff = 4;

    public Task<Result<OrderView>> MakeElsewhere(
        string id,
        ElsewhereWish wish,
        VersionCheck check,
        CancellationToken cancel
    ) => Change(id, check, (services, facts, order) => Elsewhere(services, facts, order, wish), cancel);

    public Task<Result<OrderView>> Ask(string id, AskWish wish, VersionCheck check, CancellationToken cancel) =>
        Change(id, check, (services, facts, order) => Ask(services, facts, order, wish), cancel);

    public Task<Result<OrderView>> Answer(
        string id,
        StrengthAnswer answer,
        VersionCheck check,
        CancellationToken cancel
    ) => Change(id, check, (services, facts, order) => Answer(services, facts, order, answer), cancel);

    private Task<Result<OrderView>> Change(
        string id,
        VersionCheck check,
        Func<IServiceProvider, BenchFacts, Order, Result<OrderView>> work,
        CancellationToken cancel
    ) =>
        bench.Change(
            (services, facts, _) =>
                Task.FromResult(
                    facts.Orders.FirstOrDefault(open => open.Id == id) is not { } order
                        ? new Refusal(RefusalKind.NotFound, OrderTexts.Say["NoSuchOpenOrder"])
                    : check(order.Version) is { } fault ? fault
                    : work(services, facts, order)
                ),
            cancel
        );

    private static Result<OrderView> Elsewhere(
        IServiceProvider services,
        BenchFacts facts,
        Order order,
        ElsewhereWish wish
    )
    {
        // The change being made has already raised the version by one.
        if (wish.FactsVersion is { } seen && seen != facts.Version - 1)
        {
            return new Refusal(
                RefusalKind.ChangedMeanwhile,
                "The bench has changed since this was worked out, and it might do something else now.",
                "factsVersion",
                Words.Named("what this page says now", "the watch of the order, read again")
            );
        }

        var pegs = facts.Pegs.Where(peg => peg.OrderId == order.Id && peg.Model == wish.Model).ToArray();
        if (
            pegs.FirstOrDefault(peg => peg.BatchRoot == (wish.Batch ?? Peg.NoBatch) && peg.Strength == wish.Strength)
            is not { } owed
        )
        {
            return Refusal.Invalid("batch", "The order waits for no such reeds.", "a batch the order is made from");
        }

        if (wish.Quantity < 1 || wish.Quantity > owed.Quantity)
        {
            return Refusal.Invalid("quantity", "So many are not waited for.", $"1 to {owed.Quantity}");
        }

        var line = order.Lines.Single(l => l.Position == owed.LinePosition);
        var answer = Rescues.PromiseElsewhere(
            ShopStates.Of(facts),
            ShopStates.Waiting(facts, owed).Wanted(wish.Quantity),
            order.ShipBy
        );
        if (answer.Promise is not { } promise || (wish.Batch is { } from && answer.Promise.Lines[0].BatchRoot == from))
        {
            return new Refusal(
                RefusalKind.NoPromise,
                "No other batch can be planned for them.",
                "quantity",
                answer.Reason == NoPromiseReason.TooLittleCane ? "fewer reeds, or more cane" : "fewer reeds"
            );
        }

        Pegging.Lower(facts, owed, wish.Quantity);
        Replanner.Move(facts, promise.Moved);
        Pegging.Keep(facts, order, line, promise.Lines[0]);
        Pegging.CallOffUnwanted(facts, wish.Batch ?? Peg.NoBatch);
        Pegging.MarkIfComplete(facts, order);
        order.Version++;
        var what =
            $"{wish.Quantity} of {wish.Strength} ({wish.Model}) are made elsewhere{(promise.Blanks > 0 ? $", from {promise.Blanks} new blanks" : "")}";
        Journal(services, "owner", order, what);
        return OrderView.Of(order);
    }

    private static Result<OrderView> Ask(IServiceProvider services, BenchFacts facts, Order order, AskWish wish)
    {
        var line = Line(order, wish.Model, wish.Strength);
        var fault =
            line is null ? Refusal.Invalid("strength", "The order has no such line.", Lines(order))
            : order.Ask([]).Accepted(line.Ask(1)).Contains(wish.Also)
                ? Refusal.Invalid("also", "The buyer takes that strength already.", "another strength")
            : line.Declined.Contains(wish.Also)
                ? Refusal.Stage($"The buyer has said no to {wish.Also}.", "another strength")
            : Math.Abs(wish.Also.Quarters - wish.Strength.Quarters) > MostQuartersOff
                ? Refusal.Invalid("also", "That is too far from what was ordered.", "up to a whole strength off")
            : order.Stage == OrderStage.Ready
                ? Refusal.Stage("All reeds of this order lie in the drawer.", "an order that waits for reeds")
            : line.Asked is not null
                ? Refusal.Stage($"The buyer has not answered for {line.Asked} yet.", "one question at a time")
            : null;
        if (fault is not null)
        {
            return fault;
        }

        line!.Asked = wish.Also;
        order.Version++;
        var page = services.GetRequiredService<PublicAddress>().Of($"/orders/{order.Id}");
        var (title, text) = new OrderMessages(facts.Shop, facts.Models).StrengthAsked(order, line, page);
        services
            .GetRequiredService<OutboxStore>()
            .Add(
                "strength-asked",
                $"order {order.Number}, question {order.Version}",
                order.BuyerEmail,
                title,
                text,
                language: order.Language
            );
        Journal(services, "owner", order, $"buyer asked to take {wish.Also} for {wish.Strength} ({wish.Model})");
        return OrderView.Of(order);
    }

    private static Result<OrderView> Answer(
        IServiceProvider services,
        BenchFacts facts,
        Order order,
        StrengthAnswer answer
    )
    {
        if (Line(order, answer.Model, answer.Strength) is not { Asked: { } asked } line || asked != answer.Also)
        {
            return Refusal.Stage(OrderTexts.Say["NothingAsked"], OrderTexts.Say["NothingAsked.instead"]);
        }

        line.Asked = null;
        if (!answer.Accept)
        {
            line.Declined = [.. line.Declined, asked];
        }
        else
        {
            line.Also = [.. line.Also, asked];
            Pegging.ServeOrder(facts, order);
        }

        order.Version++;
        var said =
            $"the buyer {(answer.Accept ? "takes" : "does not take")} {asked} for {line.Strength} ({line.Model})";
        Journal(services, "buyer", order, said);
        services
            .GetRequiredService<OutboxStore>()
            .Add(
                "strength-answered",
                $"order {order.Number}, answer {order.Version}",
                facts.Shop.OwnerEmail,
                $"Order {order.Number}: {said}",
                $"Order {order.Number}: {said}. The plan and the chances follow."
            );
        return OrderView.Of(order);
    }

    private static OrderLine? Line(Order order, string model, Strength strength) =>
        order.Lines.FirstOrDefault(line => line.Model == model && line.Strength == strength);

    private static string Lines(Order order) =>
        string.Join(", ", order.Lines.Select(line => $"{line.Strength} ({line.Model})"));

    private static void Journal(IServiceProvider services, string who, Order order, string what) =>
        services.GetRequiredService<JournalStore>().Write(who, $"order {order.Number}", what);
}

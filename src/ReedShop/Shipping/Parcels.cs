using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Shipping;

/// <param name="Date">The day the parcel left; today where none is sent.</param>
public sealed record ShipWish(DateOnly? Date = null, string? Tracking = null);

/// <summary>Sends orders whose reeds all lie in the drawer.</summary>
public sealed class Parcels(Bench bench)
{
    private const int MostTrackingCharacters = 100;

    public Task<Result<OrderView>> Ship(string id, ShipWish wish, VersionCheck check, CancellationToken cancel) =>
        bench.Change(
            async (services, facts, stop) =>
                await services.GetRequiredService<OrderStore>().Find(id, stop) is not { } order
                    ? Refusal.Missing("such order")
                : check(order.Version) is { } stale ? stale
                : Ship(services, facts, order, wish),
            cancel
        );

    private static Result<OrderView> Ship(IServiceProvider services, BenchFacts facts, Order order, ShipWish wish)
    {
        if (order.Stage == OrderStage.Shipped)
        {
            return OrderView.Of(order);
        }

        var left = wish.Date ?? facts.Today;
        if (Fault(facts, order, wish, left) is { } fault)
        {
            return fault;
        }

        order.Stage = OrderStage.Shipped;
        order.ShippedOn = left;
        order.Tracking = string.IsNullOrWhiteSpace(wish.Tracking) ? null : wish.Tracking.Trim();
        order.Version++;
        foreach (var peg in facts.Pegs.Where(peg => peg.OrderId == order.Id).ToArray())
        {
            facts.MoveDrawer(peg.Model, peg.Strength, -peg.Quantity, $"order {order.Number} shipped");
            facts.Remove(peg);
        }

        services
            .GetRequiredService<JournalStore>()
            .Write("owner", $"order {order.Number}", $"shipped on {left:yyyy-MM-dd}");
        var (title, text) = OrderMessages.Shipped(order, facts.Shop);
        services
            .GetRequiredService<OutboxStore>()
            .Add("order-shipped", $"order {order.Number}", order.BuyerEmail, title, text);
        return OrderView.Of(order);
    }

    private static Refusal? Fault(BenchFacts facts, Order order, ShipWish wish, DateOnly left)
    {
        var accepted = DateOnly.FromDateTime(order.AcceptedUtc).AddDays(-1);
        return OrderMoves.To(OrderMove.Ship, order.Stage) is null
                ? Refusal.Stage(
                    $"The order is {OrderMoves.Words(order.Stage)}.",
                    OrderMoves.AllowedFrom(OrderMove.Ship)
                )
            : left > facts.Today || left < accepted
                ? Refusal.Invalid(
                    "date",
                    "The parcel cannot have left then.",
                    $"{accepted:yyyy-MM-dd} to {facts.Today:yyyy-MM-dd}"
                )
            : wish.Tracking?.Length > MostTrackingCharacters
                ? Refusal.Invalid("tracking", "The tracking is too long.", $"up to {MostTrackingCharacters} characters")
            : null;
    }
}

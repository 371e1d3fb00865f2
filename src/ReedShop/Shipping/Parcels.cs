using ReedShop.Orders;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Shipping;

/// <param name="Date">The day the parcel left; today where none is sent.</param>
/// <param name="Part">Sends what lies in the drawer already; the rest of the order stays in work.</param>
public sealed record ShipWish(DateOnly? Date = null, string? Tracking = null, bool Part = false);

/// <summary>Sends orders whose reeds all lie in the drawer, or the part of them that does.</summary>
public sealed class Parcels(Bench bench)
{
    private const int MostTrackingCharacters = 100;

    public Task<Result<OrderView>> Ship(string id, ShipWish wish, VersionCheck check, CancellationToken cancel) =>
        bench.Change(
            async (services, facts, stop) =>
                await services.GetRequiredService<OrderStore>().Find(id, stop) is not { } order ? OrderStore.Missing
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

        var tracking = string.IsNullOrWhiteSpace(wish.Tracking) ? null : wish.Tracking.Trim();
        order.Parcels = [.. order.Parcels, new SentParcel(left, tracking, Take(facts, order))];
        order.Version++;
        if (!IsPart(order, wish))
        {
            (order.Stage, order.ShippedOn, order.Tracking) = (OrderStage.Shipped, left, tracking);
        }

        Tell(services, facts, order, left);
        return OrderView.Of(order);
    }

    /// <summary>An order of which all lies ready leaves whole, whatever was wished.</summary>
    private static bool IsPart(Order order, ShipWish wish) => wish.Part && order.Stage != OrderStage.Ready;

    /// <summary>The reeds of the order that lie in the drawer.</summary>
    private static List<SentReeds> Take(BenchFacts facts, Order order)
    {
        var sent = new List<SentReeds>();
        foreach (var peg in InDrawer(facts, order).ToArray())
        {
            sent.Add(new SentReeds(peg.Model, peg.Strength, peg.Quantity));
            facts.MoveDrawer(peg.Model, peg.Strength, -peg.Quantity, $"order {order.Number} shipped");
            facts.Remove(peg);
        }

        return sent;
    }

    private static IEnumerable<Peg> InDrawer(BenchFacts facts, Order order) =>
        facts.Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is null);

    private static void Tell(IServiceProvider services, BenchFacts facts, Order order, DateOnly left)
    {
        var isWhole = order.Stage == OrderStage.Shipped;
        var letters = new OrderMessages(facts.Shop, facts.Models);
        var (title, text) = isWhole ? letters.Shipped(order) : letters.PartShipped(order);
        var subject = isWhole ? $"order {order.Number}" : $"order {order.Number}, parcel {order.Parcels.Count}";
        services
            .GetRequiredService<OutboxStore>()
            .Add(
                isWhole ? "order-shipped" : "part-shipped",
                subject,
                order.BuyerEmail,
                title,
                text,
                language: order.Language
            );
        services
            .GetRequiredService<JournalStore>()
            .Write(
                "owner",
                $"order {order.Number}",
                $"{(isWhole ? "shipped" : "a part shipped")} on {left:yyyy-MM-dd}"
            );
    }

    private static Refusal? Fault(BenchFacts facts, Order order, ShipWish wish, DateOnly left)
    {
        var accepted = DateOnly.FromDateTime(order.AcceptedUtc).AddDays(-1);
        return IsPart(order, wish)
            && (OrderMoves.To(OrderMove.ShipPart, order.Stage) is null || !InDrawer(facts, order).Any())
                ? Refusal.Stage(
                    "No reed of this order lies in the drawer to be sent.",
                    $"an order with reeds in the drawer, {OrderMoves.AllowedFrom(OrderMove.ShipPart)}"
                )
            : !IsPart(order, wish) && OrderMoves.To(OrderMove.Ship, order.Stage) is null
                ? Refusal.Stage(
                    $"The order is {OrderMoves.Words(order.Stage)}.",
                    OrderMoves.AllowedFrom(OrderMove.Ship)
                )
            : order.PaysBeforeShipping && order.PaidUtc is null
                ? Refusal.Stage(
                    "The rest of its price has not been paid yet.",
                    "an order that is paid; mark it as paid if you had the money another way"
                )
            : left > facts.Today || left < accepted
                ? Refusal.Invalid(
                    "date",
                    "The parcel cannot have left then.",
                    $"{Words.DayToSend(accepted)} to {Words.DayToSend(facts.Today)}"
                )
            : wish.Tracking?.Length > MostTrackingCharacters
                ? Refusal.Invalid("tracking", "The tracking is too long.", $"up to {MostTrackingCharacters} characters")
            : null;
    }
}

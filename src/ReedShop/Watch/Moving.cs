using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>The maker gives an order another ship day.</summary>
/// <param name="Note">What the maker wants to say to the buyer; it goes into the message.</param>
public sealed record MoveDateWish(DateOnly ShipBy, string? Note = null);

/// <summary>
/// Moves promised dates. Only the maker does, and every move is told to the buyer in one message: no replan ever moves one.
/// </summary>
public sealed class Moving(Bench bench)
{
    private const int MostNoteCharacters = 500;

    public Task<Result<OrderView>> Move(string id, MoveDateWish wish, VersionCheck check, CancellationToken cancel) =>
        bench.Change<OrderView>(
            (services, facts, stop) =>
            {
                var order = facts.Orders.FirstOrDefault(open => open.Id == id);
                var fault = order is null
                    ? Refusal.Missing("such open order")
                    : check(order.Version) ?? Fault(facts, order, wish);
                return Task.FromResult<Result<OrderView>>(
                    fault is not null ? fault : Move(services, facts, order!, wish, stop)
                );
            },
            cancel
        );

    private static Refusal? Fault(BenchFacts facts, Order order, MoveDateWish wish) =>
        wish.ShipBy <= facts.Today || wish.ShipBy >= facts.Today.AddDays(BenchWork.HorizonDays)
            ? Refusal.Invalid(
                "shipBy",
                "The day cannot be promised.",
                $"a ship day from {facts.Shop.Ships.FirstAfter(facts.Today):yyyy-MM-dd} on"
            )
        : facts.Shop.Ships.FirstAfter(wish.ShipBy.AddDays(-1)) != wish.ShipBy
            ? Refusal.Invalid(
                "shipBy",
                "No parcel leaves on that day.",
                $"a ship day such as {facts.Shop.Ships.FirstAfter(wish.ShipBy):yyyy-MM-dd}"
            )
        : wish.ShipBy == order.ShipBy ? Refusal.Invalid("shipBy", "That day is promised already.", "another ship day")
        : wish.Note?.Length > MostNoteCharacters
            ? Refusal.Invalid("note", "The note is too long.", $"up to {MostNoteCharacters} characters")
        : null;

    private static OrderView Move(
        IServiceProvider services,
        BenchFacts facts,
        Order order,
        MoveDateWish wish,
        CancellationToken cancel
    )
    {
        var state = ShopStates.Of(facts);
        var isWaiting = state.Promises.Any(promise => promise.Order == order.Id);
        var outlook = isWaiting ? Forecast.Of(state, cancel: cancel).Of(order.Id) : null;
        var isForced = outlook is not null && OutlookView.IsRisky(outlook.Chance, order, facts);
        var from = order.ShipBy;
        order.IsOwnDate |= order.MovedUtc is null && !isForced;
        order.ShipBy = wish.ShipBy;
        order.Chance = WatchReader.Told(outlook?.ChanceBy(wish.ShipBy) ?? 1);
        order.FirstTry = order.Chance;
        order.MovedUtc = facts.NowUtc;
        order.Reply = null;
        order.Version++;
        var note = string.IsNullOrWhiteSpace(wish.Note) ? null : wish.Note.Trim();
        var page = services.GetRequiredService<PublicAddress>().Of($"/orders/{order.Id}");
        var (title, text) = OrderMessages.Moved(order, from, note, facts.Shop, page);
        services
            .GetRequiredService<OutboxStore>()
            .Add("date-moved", $"order {order.Number}, move {order.Version}", order.BuyerEmail, title, text);
        services
            .GetRequiredService<JournalStore>()
            .Write(
                "owner",
                $"order {order.Number}",
                $"promised day moved from {from:yyyy-MM-dd} to {order.ShipBy:yyyy-MM-dd}{(isForced ? "" : ", the maker's own choice")}"
            );
        return OrderView.Of(order);
    }
}

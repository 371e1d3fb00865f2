using ReedShop.Orders;
using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Platform;
using ReedShop.Platform.Layout;
using ReedShop.Platform.Storage;
using ReedShop.Workshop;

namespace ReedShop.Watch;

/// <summary>The maker gives an order another ship day.</summary>
/// <param name="Note">What the maker wants to say to the buyer; it goes into the message.</param>
/// <param name="Anyway">Also a day that will hardly be kept, or that is after the last day of use to the buyer.</param>
public sealed record MoveDateWish(DateOnly ShipBy, string? Note = null, bool Anyway = false);

/// <summary>
/// Moves promised dates. Only the maker does, and every move is told to the buyer in one message: no replan ever moves one.
/// </summary>
public sealed class Moving(Bench bench)
{
    private const int MostNoteCharacters = 500;

    /// <summary>A chance of 0 would look as if none had been told.</summary>
    private const double LeastTold = 0.01;

    /// <summary>A day that is missed as often as not is no promise.</summary>
    private const double LeastChance = 0.5;

    public Task<Result<OrderView>> Move(string id, MoveDateWish wish, VersionCheck check, CancellationToken cancel) =>
        bench.Change<OrderView>(
            (services, facts, stop) =>
            {
                var order = facts.Orders.FirstOrDefault(open => open.Id == id);
                var fault = order is null
                    ? Refusal.Missing("such open order")
                    : check(order.Version) ?? Fault(facts, order, wish);
                return Task.FromResult(fault is not null ? fault : Move(services, facts, order!, wish, stop));
            },
            cancel
        );

    private static Refusal? Fault(BenchFacts facts, Order order, MoveDateWish wish) =>
        wish.ShipBy <= facts.Today || wish.ShipBy >= facts.Today.AddDays(BenchWork.HorizonDays)
            ? Refusal.Invalid(
                "shipBy",
                "The day cannot be promised.",
                $"a ship day from {Words.DayToSend(facts.Shop.Ships.FirstAfter(facts.Today) ?? facts.Today)} to {Words.DayToSend(facts.Today.AddDays(BenchWork.HorizonDays - 1))}"
            )
        : facts.Shop.Ships.FirstAfter(wish.ShipBy.AddDays(-1)) != wish.ShipBy
            ? Refusal.Invalid(
                "shipBy",
                "No parcel leaves on that day.",
                $"a ship day such as {Words.DayToSend(facts.Shop.Ships.FirstAfter(wish.ShipBy) ?? wish.ShipBy)}"
            )
        : wish.ShipBy == order.ShipBy ? Refusal.Invalid("shipBy", "That day is promised already.", "another ship day")
        : wish.Note?.Length > MostNoteCharacters
            ? Refusal.Invalid("note", "The note is too long.", $"up to {MostNoteCharacters} characters")
        : null;

    /// <summary>
    /// Less likely than was told, whatever level the maker wants to be told from; and for reeds that lie ready, when no
    /// parcel leaves by then any more.
    /// </summary>
    public static bool StandsBadly(BenchFacts facts, Order order, PromiseOutlook? outlook) =>
        outlook is null
            ? facts.Shop.Ships.FirstAfter(facts.Today.AddDays(-1)) is not { } next || order.ShipBy < next
            : PromiseWatch.IsAtRisk(outlook.Chance, order.Chance, order.Chance > 0 ? 1 : facts.Shop.WatchBelow);

    private static Refusal? Doubt(Order order, MoveDateWish wish, double chance, PromiseOutlook? outlook)
    {
        const string anyway = "; or this day all the same";
        return chance < LeastChance
                ? Refusal.Invalid(
                    "shipBy",
                    $"By {Words.DayToSend(wish.ShipBy)} it would leave {Words.Chance(chance)} only.",
                    (
                        outlook?.ShipDayFor(order.Confidence) is { } day
                            ? $"{Words.DayToSend(day)} or later"
                            : "a later day"
                    ) + anyway
                )
            : wish.ShipBy > order.NeedBy
                ? Refusal.Invalid(
                    "shipBy",
                    $"The buyer has no use for it after {Words.DayToSend(order.NeedBy!.Value)}.",
                    $"a day until then{anyway}"
                )
            : null;
    }

    private static Result<OrderView> Move(
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
        var isForced = StandsBadly(facts, order, outlook);
        var chance = DueDay.Told(outlook?.ChanceBy(wish.ShipBy) ?? 1);
        if (!wish.Anyway && Doubt(order, wish, chance, outlook) is { } doubt)
        {
            return doubt;
        }

        var from = order.ShipBy;
        order.ShipBy = wish.ShipBy;
        order.WasGivenUp |= isForced && !order.IsOwnDate;
        order.IsOwnDate = !order.WasGivenUp && order.ShipBy != order.FirstShipBy;
        order.Chance = Math.Max(LeastTold, chance);
        order.FirstTry = Math.Min(order.FirstTry > 0 ? order.FirstTry : order.Chance, order.Chance);
        order.MovedUtc = facts.NowUtc;
        (order.Reply, order.ReplyNote) = (null, null);
        order.Version++;
        var note = string.IsNullOrWhiteSpace(wish.Note) ? null : wish.Note.Trim();
        var page = services.GetRequiredService<PublicAddress>().Of($"/orders/{order.Id}");
        var (title, text) = new OrderMessages(facts.Shop, facts.Models).Moved(order, from, isForced, note, page);
        services
            .GetRequiredService<OutboxStore>()
            .Add(
                "date-moved",
                $"order {order.Number}, move {order.Version}",
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
                $"promised day moved from {from:yyyy-MM-dd} to {order.ShipBy:yyyy-MM-dd}{(isForced ? "" : ", the maker's own choice")}"
            );
        return OrderView.Of(order);
    }
}

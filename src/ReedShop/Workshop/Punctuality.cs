using ReedShop.Orders;
using ReedShop.Planning.Bench;
using ReedShop.Planning.Forecasting;

namespace ReedShop.Workshop;

/// <summary>The three states of a promise, in the words shown to the maker.</summary>
public static class Punctuality
{
    public const string OnTime = "on time";
    public const string ToWatch = "to watch";
    public const string Late = "late";

    /// <summary>
    /// Late when the planned finish misses the promised ship date; to watch when the draws of the shop put it at risk or find
    /// it clearly less likely than was told, or,
    /// before they were made, when the finish eats into the days kept spare for damp nights; else on time.
    /// </summary>
    public static string Of(BenchFacts facts, Order order, DateOnly? finish)
    {
        var byPlan = ByPlan(order, finish, facts.Shop.Ships, facts.Today);
        return byPlan == Late || order.Stage == OrderStage.Ready || !facts.Outlooks.TryGetValue(order.Id, out var drawn)
                ? byPlan
            : IsToWatch(facts, order, drawn.Chance) ? ToWatch
            : OnTime;
    }

    private static bool IsToWatch(BenchFacts facts, Order order, double chance) =>
        PromiseWatch.HasFallen(chance, order.Chance) || OutlookView.IsRisky(chance, order, facts);

    /// <summary>By the days of a plan alone. Reeds that lie ready leave on the ship day itself, so only a day that has passed is late.</summary>
    public static string ByPlan(Order order, DateOnly? finish, ShipCalendar ships, DateOnly today) =>
        order.Stage == OrderStage.Ready ? (order.ShipBy < today ? Late : OnTime)
        : finish is not { } day || ships.FirstAfter(day) is not { } leaves || leaves > order.ShipBy ? Late
        : day > order.FinishBy ? ToWatch
        : OnTime;
}

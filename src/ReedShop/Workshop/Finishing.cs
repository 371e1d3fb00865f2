using ReedShop.Orders;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Workshop;

/// <summary>When the reeds of an order are all done, by a plan.</summary>
public static class Finishing
{
    /// <summary>Today when all lie in the drawer; null when some have no place in the plan.</summary>
    public static DateOnly? Of(BenchFacts facts, BenchWork bench, Plan plan, Order order)
    {
        var roots = facts
            .Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is not null)
            .Select(peg => peg.BatchRoot!)
            .Distinct();
        var days = new List<int?> { 0 };
        foreach (var root in roots)
        {
            var trays = facts.OpenBatches.Where(batch => batch.Root == root).ToArray();
            days.AddRange(trays.Length == 0 ? [null] : trays.Select(tray => bench.FinishDay(plan, tray.Id)));
        }

        return days.Contains(null) ? null : facts.Today.AddDays(days.Max()!.Value);
    }
}

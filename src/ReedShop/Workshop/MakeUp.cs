using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Promising;
using ReedShop.Platform.Storage;

namespace ReedShop.Workshop;

/// <summary>Starts an extra batch when an order came up short, and tells the maker.</summary>
public sealed class MakeUp(JournalStore journal, OutboxStore outbox)
{
    private int told;

    /// <summary>
    /// Takes the missing reeds off the batch and finds them elsewhere, latest promise first, because the earliest
    /// promises keep the reeds that are there.
    /// </summary>
    public void ForShortage(BenchFacts facts, string root, int missing)
    {
        var shortOf = new Dictionary<(Order Order, OrderLine Line), int>();
        foreach (var peg in facts.PegsOn(root).Reverse().Where(_ => missing > 0))
        {
            var taken = Math.Min(missing, peg.Quantity);
            var line = LineOf(facts, peg);
            shortOf[line] = shortOf.GetValueOrDefault(line) + taken;
            Pegging.Lower(facts, peg, taken);
            missing -= taken;
        }

        foreach (var ((order, line), reeds) in shortOf)
        {
            Find(facts, order, line, reeds);
        }
    }

    /// <summary>
    /// Fewer reeds lie in the drawer than are spoken for: the latest promises give theirs up and get others made.
    /// </summary>
    public void ForLostReeds(BenchFacts facts, string model, Strength strength)
    {
        var spoken = facts
            .Pegs.Where(peg => peg.BatchRoot is null && peg.Model == model && peg.Strength == strength)
            .OrderByDescending(peg => facts.OrderOf(peg).ShipBy)
            .ToArray();
        var lostOf = new Dictionary<(Order Order, OrderLine Line), int>();
        foreach (var peg in spoken)
        {
            var lost = Math.Min(peg.Quantity, -facts.DrawerFree(model, strength));
            if (lost > 0)
            {
                var line = LineOf(facts, peg);
                lostOf[line] = lostOf.GetValueOrDefault(line) + lost;
                Pegging.Lower(facts, peg, lost);
            }
        }

        foreach (var ((order, line), reeds) in lostOf)
        {
            order.Stage = OrderMoves.To(OrderMove.LoseReeds, order.Stage) ?? order.Stage;
            order.Version++;
            Find(facts, order, line, reeds);
        }
    }

    /// <summary>Tries again for reeds that nothing makes yet: cane may have come, or an evening.</summary>
    public void RetryUnserved(BenchFacts facts)
    {
        foreach (var peg in facts.PegsOn(Peg.NoBatch))
        {
            var (order, line) = LineOf(facts, peg);
            if (Search(facts, order, line, peg.Quantity).Promise is { } promise)
            {
                facts.Remove(peg);
                var found = $"{peg.Quantity} of {line.Strength} ({line.Model}): {Keep(facts, order, line, promise)}";
                journal.Write("shop", $"order {order.Number}", found);
                if (promise.ShipBy > order.ShipBy)
                {
                    Tell(facts, order, line, found);
                }
            }
        }
    }

    private static (Order Order, OrderLine Line) LineOf(BenchFacts facts, Peg peg)
    {
        var order = facts.OrderOf(peg);
        return (order, order.Lines.Single(line => line.Position == peg.LinePosition));
    }

    private static PromiseAnswer Search(BenchFacts facts, Order order, OrderLine line, int missing)
    {
        var state = ShopStates.Of(facts);
        var request = order.Ask([line.Ask(missing)]);
        var inTime = Promiser.PromiseBy(state, request, order.ShipBy);
        return inTime.Promise is null ? Promiser.Promise(state, request) : inTime;
    }

    private void Find(BenchFacts facts, Order order, OrderLine line, int missing)
    {
        order.CameShort = true;
        var answer = Search(facts, order, line, missing);
        var text = answer.Promise is { } promise
            ? Keep(facts, order, line, promise)
            : "no extra batch could be planned: there is too little cane, or no evening for it";
        if (answer.Promise is null)
        {
            facts.Add(Unserved(order, line, missing));
        }

        var shortfall = $"{missing} of {line.Strength} ({line.Model}) short: {text}";
        journal.Write("shop", $"order {order.Number}", shortfall);
        Tell(facts, order, line, shortfall);
    }

    private void Tell(BenchFacts facts, Order order, OrderLine line, string what) =>
        outbox.Add(
            "short",
            $"order {order.Number}, line {line.Position}, facts {facts.Version}, {++told}",
            facts.Shop.OwnerEmail,
            $"Order {order.Number} came up short",
            $"Order {order.Number}, promised for {order.ShipBy:yyyy-MM-dd}: {what}."
        );

    private static string Keep(BenchFacts facts, Order order, OrderLine line, Promise promise)
    {
        var made = promise.Lines[0];
        Replanner.Move(facts, promise.Moved);
        Pegging.Keep(facts, order, line, made);
        Pegging.MarkIfComplete(facts, order);
        var late = promise.ShipBy > order.ShipBy ? $", {promise.ShipBy:yyyy-MM-dd} instead of the promised day" : "";
        return made.Blanks > 0
            ? $"an extra batch of {made.Blanks} blanks is planned{late}"
            : $"taken from the drawer or a batch under way{late}";
    }

    /// <summary>A peg on no batch that exists keeps the order from looking complete until the owner finds reeds for it.</summary>
    public static Peg Unserved(Order order, OrderLine line, int missing) =>
        new()
        {
            OrderId = order.Id,
            LinePosition = line.Position,
            BatchRoot = Peg.NoBatch,
            Model = line.Model,
            Strength = line.Strength,
            Quantity = missing,
            Cover = 0,
        };
}

using ReedShop.Orders;
using ReedShop.Planning;
using ReedShop.Planning.Promising;

namespace ReedShop.Workshop;

/// <summary>Ties reeds to order lines, and unties them.</summary>
public static class Pegging
{
    /// <summary>
    /// Keeps what a promise named for one line: pegs the drawer's reeds and those of a batch under way, starts the new
    /// batches on the days the promise chose, and pegs them.
    /// </summary>
    public static void Keep(BenchFacts facts, Order order, OrderLine line, PromisedLine promised)
    {
        foreach (var reeds in promised.FromDrawer)
        {
            Add(facts, order, line, null, reeds.Strength, reeds.Count, 1);
        }

        if (promised.BatchRoot is { } root)
        {
            Add(facts, order, line, root, line.Strength, promised.FromBatch, promised.Cover);
        }

        foreach (var (batch, share) in promised.New.Zip(promised.Shares()))
        {
            Add(facts, order, line, Start(facts, batch).Root, line.Strength, share, promised.Cover);
        }
    }

    /// <summary>Claims the blanks of a new batch and writes its days into the plan.</summary>
    public static Batch Start(BenchFacts facts, NewBatch wanted)
    {
        var batch = facts.NewBatch(
            wanted.Model,
            wanted.CaneLot,
            wanted.Aim,
            wanted.FirstStep,
            wanted.LastStep,
            wanted.Blanks
        );
        batch.NotBefore = facts.Today.AddDays(wanted.NotBeforeDay);
        Blanks.Claim(facts, batch);
        for (var k = 0; k < wanted.Sittings.Count; k++)
        {
            var sitting = wanted.Sittings[k];
            facts.Add(
                new PlannedSitting
                {
                    Id = BenchWork.SittingId(batch.Id, sitting),
                    BatchId = batch.Id,
                    FirstStep = sitting.FirstStep,
                    LastStep = sitting.LastStep,
                    Part = sitting.Part,
                    Blanks = sitting.Blanks,
                    Minutes = sitting.Work.Minutes,
                    Day = facts.Today.AddDays(wanted.Days[k]),
                    Helper = Persons.NameOf(facts.Shop, wanted.People.ElementAtOrDefault(k)),
                }
            );
        }

        return batch;
    }

    /// <summary>Gives the drawer's free reeds to the pegs of a batch, earliest promise first.</summary>
    public static void ServeFromDrawer(BenchFacts facts, string root) => Serve(facts, facts.PegsOn(root));

    /// <summary>Gives the drawer's free reeds to an order that waits for such.</summary>
    public static void ServeOrder(BenchFacts facts, Order order) =>
        ServeAndCallOff(facts, facts.Pegs.Where(peg => peg.OrderId == order.Id && peg.BatchRoot is not null));

    /// <summary>
    /// Gives the drawer's free reeds of a model to orders that came short and wait for an extra batch that nobody began,
    /// earliest promise first. Whoever waits for a batch under way goes on waiting: the next buyer is served from the drawer.
    /// </summary>
    public static void ServeShort(BenchFacts facts, string model) =>
        ServeAndCallOff(
            facts,
            facts
                .Pegs.Where(peg =>
                    peg.Model == model && facts.OrderOf(peg).CameShort && IsUnbegun(facts, peg.BatchRoot)
                )
                .OrderBy(peg => facts.OrderOf(peg).ShipBy)
                .ThenBy(peg => peg.Id)
        );

    /// <summary>A batch that nobody waits for any more and nobody began is called off.</summary>
    public static void CallOffUnwanted(BenchFacts facts, string root)
    {
        if (facts.PegsOn(root).Count == 0)
        {
            foreach (var batch in facts.Batches.Where(b => b.Root == root && b.Stage == BatchStage.Planned).ToArray())
            {
                CallOff(facts, batch);
            }
        }
    }

    private static bool IsUnbegun(BenchFacts facts, string? root) =>
        root is not null
        && facts.OpenBatches.Where(batch => batch.Root == root).All(b => b.Stage == BatchStage.Planned);

    private static void ServeAndCallOff(BenchFacts facts, IEnumerable<Peg> waiting)
    {
        var pegs = waiting.ToArray();
        Serve(facts, pegs);
        foreach (var root in pegs.Select(peg => peg.BatchRoot!).Distinct())
        {
            CallOffUnwanted(facts, root);
        }
    }

    private static void Serve(BenchFacts facts, IEnumerable<Peg> pegs)
    {
        foreach (var peg in pegs)
        {
            var order = facts.OrderOf(peg);
            var line = order.Lines.Single(l => l.Position == peg.LinePosition);
            foreach (var strength in facts.AcceptedFor(peg))
            {
                var served = Math.Min(peg.Quantity, Math.Max(0, facts.DrawerFree(peg.Model, strength)));
                if (served > 0)
                {
                    Add(facts, order, line, null, strength, served, 1);
                    Lower(facts, peg, served);
                }
            }

            MarkIfComplete(facts, order);
        }
    }

    /// <summary>Takes reeds off a peg; an empty peg is gone.</summary>
    public static void Lower(BenchFacts facts, Peg peg, int quantity)
    {
        peg.Quantity -= quantity;
        if (peg.Quantity == 0)
        {
            facts.Remove(peg);
        }
    }

    /// <summary>An order whose reeds all lie in the drawer is ready.</summary>
    public static void MarkIfComplete(BenchFacts facts, Order order)
    {
        if (
            facts.Pegs.Where(peg => peg.OrderId == order.Id).All(peg => peg.BatchRoot is null)
            && OrderMoves.To(OrderMove.CompleteReeds, order.Stage) is { } ready
        )
        {
            order.Stage = ready;
            order.Version++;
        }
    }

    /// <summary>A batch that makes reeds of the order has had its first sitting.</summary>
    public static void MarkBegun(BenchFacts facts, Order order)
    {
        order.BegunOn ??= facts.Today;
        if (OrderMoves.To(OrderMove.StartBench, order.Stage) is { } onBench)
        {
            order.Stage = onBench;
            order.Version++;
        }
    }

    /// <summary>An order that waited to be paid stands where its reeds stand by now.</summary>
    public static void CatchUp(BenchFacts facts, Order order)
    {
        var roots = facts.Pegs.Where(peg => peg.OrderId == order.Id).Select(peg => peg.BatchRoot).ToHashSet();
        if (facts.Batches.Exists(batch => batch.Stage == BatchStage.OnBench && roots.Contains(batch.Root)))
        {
            MarkBegun(facts, order);
        }

        MarkIfComplete(facts, order);
    }

    /// <summary>Frees all reeds of an order, and calls off batches that nobody waits for any more and nobody began.</summary>
    public static void Release(BenchFacts facts, Order order)
    {
        var freed = facts.Pegs.Where(peg => peg.OrderId == order.Id).ToArray();
        foreach (var peg in freed)
        {
            facts.Remove(peg);
        }

        foreach (var root in freed.Select(peg => peg.BatchRoot).OfType<string>().Distinct())
        {
            CallOffUnwanted(facts, root);
        }
    }

    public static void CallOff(BenchFacts facts, Batch batch)
    {
        batch.Stage = BatchStage.CalledOff;
        batch.Version++;
        Blanks.GiveBack(facts, batch);
    }

    private static void Add(
        BenchFacts facts,
        Order order,
        OrderLine line,
        string? root,
        Strength strength,
        int quantity,
        double cover
    )
    {
        if (quantity > 0)
        {
            facts.Add(
                new Peg
                {
                    OrderId = order.Id,
                    LinePosition = line.Position,
                    BatchRoot = root,
                    Model = line.Model,
                    Strength = strength,
                    Quantity = quantity,
                    Cover = cover,
                }
            );
        }
    }
}

using ReedShop.Planning.Promising;

namespace ReedShop.Lab.Trials;

/// <summary>Ties reeds to orders and finds others when they come up short, by the rules of the service in few lines.</summary>
internal sealed class Keeping(Book book, IPromising promising)
{
    private readonly Dictionary<(int Order, int Line), int> started = [];

    public void Accept(Wish wish, Promise promise)
    {
        var order = new TrialOrder(wish, book.Today, promise);
        book.Orders.Add(order);
        Keep(order, promise, [.. Enumerable.Range(0, promise.Lines.Count)]);
        MarkIfComplete(order);
    }

    /// <summary>Finished reeds lie in the drawer: pegs on their batch first, then those that nothing makes yet.</summary>
    public void ServeFromDrawer(TrialBatch batch)
    {
        foreach (var peg in book.PegsOn(batch).Concat(book.PegsOn(null)))
        {
            foreach (var strength in peg.Order.Request.Accepted(peg.Line))
            {
                var reeds = book.Drawer.GetValueOrDefault((peg.Line.Model, strength));
                var served = Math.Min(peg.Quantity, reeds);
                if (served > 0)
                {
                    book.Drawer[(peg.Line.Model, strength)] = reeds - served;
                    Lower(peg, served);
                }
            }

            MarkIfComplete(peg.Order);
        }
    }

    /// <summary>
    /// Fewer blanks alive than reeds owed is a certain shortage. The latest promises give up theirs, because the
    /// earliest keep the reeds that are there.
    /// </summary>
    public void CoverShortage(TrialBatch batch)
    {
        var pegs = book.PegsOn(batch);
        var missing = pegs.Sum(peg => peg.Quantity) - batch.Alive;
        var shortOf = new Dictionary<(TrialOrder Order, int Line), int>();
        foreach (var peg in pegs.Reverse().Where(_ => missing > 0))
        {
            var taken = Math.Min(missing, peg.Quantity);
            shortOf[(peg.Order, peg.LineNumber)] = shortOf.GetValueOrDefault((peg.Order, peg.LineNumber)) + taken;
            peg.Order.CameUpShort = true;
            Lower(peg, taken);
            missing -= taken;
        }

        foreach (var ((order, line), reeds) in shortOf)
        {
            if (!Find(order, line, reeds))
            {
                book.Pegs.Add(new TrialPeg(order, line, null, reeds, 0));
            }
        }
    }

    /// <summary>Cane may have come, or an evening.</summary>
    public void RetryUnserved()
    {
        foreach (var peg in book.PegsOn(null))
        {
            if (Find(peg.Order, peg.LineNumber, peg.Quantity))
            {
                book.Pegs.Remove(peg);
                MarkIfComplete(peg.Order);
            }
        }
    }

    private bool Find(TrialOrder order, int line, int reeds)
    {
        var wanted = order.Request.Lines[line] with { Quantity = reeds };
        if (promising.MakeUp(order.Request with { Lines = [wanted] }, order.ShipBy) is not { } promise)
        {
            return false;
        }

        Keep(order, promise, [line]);
        MarkIfComplete(order);
        return true;
    }

    private void Keep(TrialOrder order, Promise promise, int[] lines)
    {
        new BenchWorkload(book).Move(promise.Moved);
        foreach (var (line, promised) in lines.Zip(promise.Lines))
        {
            Keep(order, line, promised);
        }

        book.HasNews = true;
    }

    private void Keep(TrialOrder order, int line, PromisedLine promised)
    {
        foreach (var reeds in promised.FromDrawer)
        {
            book.Drawer[(promised.Line.Model, reeds.Strength)] -= reeds.Count;
        }

        if (promised.BatchRoot is { } root)
        {
            var batch = book.Batches.Single(batch => batch.Id == root);
            book.Pegs.Add(new TrialPeg(order, line, batch, promised.FromBatch, promised.Cover));
        }

        for (var part = 0; part < promised.New.Count; part++)
        {
            var (missing, parts) = (promised.ToMake, promised.New.Count);
            var share = (missing * (part + 1) / parts) - (missing * part / parts);
            var batch = Start(order, line, promised.New[part]);
            if (share > 0)
            {
                book.Pegs.Add(new TrialPeg(order, line, batch, share, promised.Cover));
            }
        }
    }

    private TrialBatch Start(TrialOrder order, int line, NewBatch wanted)
    {
        var number = started[(order.Wish.Number, line)] = started.GetValueOrDefault((order.Wish.Number, line)) + 1;
        var address = Draws.Mixed(Draws.Mixed((ulong)order.Wish.Number, (ulong)line), (ulong)number);
        var model = book.Premises.Models.First(model => model.Name == wanted.Model);
        var lot = book.Cane.First(lot => lot.Name == wanted.CaneLot);
        lot.BlanksLeft -= wanted.Blanks;
        var batch = new TrialBatch(book.Batches.Count + 1, address, model, lot.Name, wanted.Aim, wanted.Blanks);
        var notBefore = book.Today.AddDays(wanted.NotBeforeDay);
        batch.Trays.Add(
            new TrialTray(batch, 0, wanted.Blanks, wanted.FirstStep, notBefore)
            {
                Days = wanted
                    .Sittings.Zip(wanted.Days)
                    .ToDictionary(day => (day.First.LastStep, day.First.Part), day => book.Today.AddDays(day.Second)),
            }
        );
        book.Batches.Add(batch);
        return batch;
    }

    private void Lower(TrialPeg peg, int quantity)
    {
        peg.Quantity -= quantity;
        if (peg.Quantity == 0)
        {
            book.Pegs.Remove(peg);
        }
    }

    private void MarkIfComplete(TrialOrder order)
    {
        if (order.ReadyOn is null && book.Pegs.TrueForAll(peg => peg.Order != order))
        {
            order.ReadyOn = book.Today;
        }
    }
}

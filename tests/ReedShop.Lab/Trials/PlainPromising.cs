using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab.Trials;

/// <summary>
/// A rule of thumb: the drawer first, then as many blanks as the rule says on the earliest days the bench offers. The
/// day promised is the first ship day after that, or always the same number of days ahead. States no chance, so what was
/// asked stands for it.
/// </summary>
internal sealed class PlainPromising(Book book, Func<Book, PromiseRequest, int, int> blanksFor, int? daysAhead)
    : IPromising
{
    public PromiseAnswer Promise(PromiseRequest request) =>
        Promised(request) is { } promise ? promise : NoPromiseReason.NoEvenings;

    /// <summary>What is short is made again by the same rule; the day named earlier asks for nothing more.</summary>
    public Promise? MakeUp(PromiseRequest request, DateOnly shipBy) => Promised(request);

    /// <summary>The day before the parcel goes: a rule of thumb keeps nothing spare.</summary>
    public void RenewDueDays()
    {
        foreach (var order in book.OpenOrders)
        {
            order.FinishBy = order.ShipBy.AddDays(-1);
        }
    }

    private Promise? Promised(PromiseRequest request)
    {
        var maker = new PlainMaker(book, new BenchWorkload(book));
        var lines = new List<PromisedLine>();
        foreach (var line in request.Lines)
        {
            if (maker.Make(request, line, missing => blanksFor(book, request, missing)) is not { } made)
            {
                return null;
            }

            lines.Add(made);
        }

        var ready = daysAhead is { } days ? days - 1 : lines.Max(line => line.FinishDay);
        return book.Premises.Ships.FirstAfter(book.Today.AddDays(ready)) is { } ships
            ? new Promise(ships, ships.AddDays(-1), request.Confidence, request.Confidence, 0, lines, Plan.Empty)
            : null;
    }
}

/// <summary>Serves lines one after another from what the drawer, the cane and the bench have left.</summary>
internal sealed class PlainMaker(Book book, BenchWorkload bench)
{
    private readonly Dictionary<(string, Planning.Strength), int> drawer = new(book.Drawer);
    private readonly Dictionary<CaneStore, int> cane = book.Cane.ToDictionary(lot => lot, lot => lot.BlanksLeft);
    private readonly List<WorkBatch> work = [.. bench.Work.Batches];
    private Plan plan = bench.Current;

    public PromisedLine? Make(PromiseRequest request, PromiseLine line, Func<int, int> blanksFor)
    {
        var fromDrawer = TakeFromDrawer(request, line);
        var missing = line.Quantity - fromDrawer.Sum(reeds => reeds.Count);
        if (missing == 0)
        {
            return new PromisedLine(line, fromDrawer, null, 0, [], 1, 0, new WayAhead());
        }

        return NewBatches(line, blanksFor(missing)) is { } made
            ? new PromisedLine(
                line,
                fromDrawer,
                null,
                0,
                made,
                request.Confidence,
                made.Max(batch => batch.FinishDay),
                made[0].Ahead
            )
            : null;
    }

    private List<DrawerReeds> TakeFromDrawer(PromiseRequest request, PromiseLine line)
    {
        var reeds = new List<DrawerReeds>();
        var wanted = line.Quantity;
        foreach (var strength in request.Accepted(line))
        {
            var taken = Math.Min(wanted, drawer.GetValueOrDefault((line.Model, strength)));
            if (taken > 0)
            {
                reeds.Add(new DrawerReeds(strength, taken));
                drawer[(line.Model, strength)] -= taken;
                wanted -= taken;
            }
        }

        return reeds;
    }

    private List<NewBatch>? NewBatches(PromiseLine line, int blanks)
    {
        if (book.Cane.Find(lot => lot.Model == line.Model && cane[lot] >= blanks) is not { } source)
        {
            return null;
        }

        cane[source] -= blanks;
        var parts = (blanks + Premises.MostBlanksPerBatch - 1) / Premises.MostBlanksPerBatch;
        var made = new List<NewBatch>();
        for (var part = 1; part <= parts; part++)
        {
            var share = (blanks * part / parts) - (blanks * (part - 1) / parts);
            if (Placed(line, source, share) is not { } batch)
            {
                return null;
            }

            made.Add(batch);
        }

        return made;
    }

    private NewBatch? Placed(PromiseLine line, CaneStore source, int blanks)
    {
        var route = book.Premises.Models.First(model => model.Name == line.Model).Route;
        var usual = book.Premises.Bench.UsualMinutes(book.Today);
        var last = route.Steps.Count;
        var sittings = BatchWork.Sittings(route, 1, last, blanks, usual);
        var id = FormattableString.Invariant($"new {work.Count}");
        var newcomer = new WorkBatch(id, blanks, 1, null, [.. sittings.Select(sitting => sitting.Work)]);
        if (Planner.PlaceEarliest(bench.Work with { Batches = work }, plan, newcomer) is not { } days)
        {
            return null;
        }

        work.Add(newcomer);
        plan = plan.With(id, days);
        return new NewBatch(line.Model, line.Strength, source.Name, false, 1, last, blanks, 1, sittings, days);
    }
}

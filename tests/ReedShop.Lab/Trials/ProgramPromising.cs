using ReedShop.Planning.Forecasting;
using ReedShop.Planning.Promising;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>Promises as the program makes them, from what the shop has recorded.</summary>
/// <param name="told">Hears of every promise, with the shop it was made for.</param>
internal sealed class ProgramPromising(
    Book book,
    KnownAnswers? known = null,
    Action<ShopState, PromiseRequest, Promise>? told = null
) : IPromising
{
    private readonly Estimating estimating = new(book);
    private YieldEstimates? covered;
    private Dictionary<string, double> covers = [];
    private int asked;

    public PromiseAnswer Promise(PromiseRequest request)
    {
        if (known?.Find(asked++, book.Today) is var (answer, reads))
        {
            estimating.KeepUp(reads);
            return answer;
        }

        var state = State();
        var found = ForecastPromiser.Promise(state, request);
        if (found.Promise is { } promise)
        {
            told?.Invoke(state, request, promise);
        }

        known?.Keep(found, estimating.Reads, book.Today);
        return found;
    }

    public Promise? MakeUp(PromiseRequest request, DateOnly shipBy)
    {
        var state = State();
        return Promiser.PromiseBy(state, request, shipBy).Promise ?? Promiser.Promise(state, request).Promise;
    }

    /// <summary>As the service does it: the latest day that keeps the chance stated, or as near as helps.</summary>
    public void RenewDueDays()
    {
        var bench = new BenchWorkload(book);
        var state = TrialState.Of(book, bench, (model, lot) => estimating.Lately.For(model, lot));
        foreach (var orders in book.Pegs.Where(peg => peg.Batch is not null).GroupBy(peg => peg.Order))
        {
            var lines = orders.GroupBy(peg => peg.LineNumber).Select(pegs => Line(bench, state, [.. pegs])).ToArray();
            orders.Key.FinishBy = DueDay.Of(
                book.Premises.Bench,
                book.Today,
                orders.Key.ShipBy,
                orders.Key.FirstTry,
                lines.Aggregate(1.0, (cover, line) => cover * line.Cover),
                lines.Select(line => line.Ahead).Aggregate(WayAhead.Longest),
                state.Hazards
            );
        }
    }

    private ShopState State() =>
        TrialState.Of(book, new BenchWorkload(book), (model, lot) => estimating.Now.For(model, lot));

    /// <summary>The batches of a line are one pool; earlier promises on them are served first.</summary>
    private (double Cover, WayAhead Ahead) Line(BenchWorkload bench, ShopState state, TrialPeg[] pegs)
    {
        var pool = pegs.Select(peg => peg.Batch!).Distinct().SelectMany(batch => batch.Open).ToArray();
        var cover = Cover(
            state.Models[pegs[0].Line.Model],
            pegs[0],
            [.. pool.Select(tray => new AliveBlanks(tray.Batch.Aim, tray.Batch.Lot, tray.NextStep, tray.Blanks))],
            pegs.DistinctBy(peg => peg.Batch).Sum(WantedUpTo)
        );
        return (cover, pool.Select(tray => Ahead(bench, tray)).Aggregate(WayAhead.Longest));
    }

    /// <summary>Most trays only wait from one morning to the next, and what was computed for them still holds.</summary>
    private double Cover(ModelSupply supply, TrialPeg peg, AliveBlanks[] alive, int wanted)
    {
        if (covered != estimating.Lately)
        {
            (covered, covers) = (estimating.Lately, []);
        }

        var key = FormattableString.Invariant(
            $"{peg.Line} {peg.Order.Request.Neighbours} {string.Join<AliveBlanks>(' ', alive)} {wanted}"
        );
        if (!covers.TryGetValue(key, out var cover))
        {
            var accepted = peg.Order.Request.Accepted(peg.Line).ToHashSet();
            covers[key] = cover = LineCover.Of(supply, accepted, alive, wanted);
        }

        return cover;
    }

    /// <summary>Those the rest of its route needs, and those that its blanks on the rack still lie now.</summary>
    private static WayAhead Ahead(BenchWorkload bench, TrialTray tray)
    {
        var work = bench.Work.Batches.First(batch => batch.Id == tray.Id);
        var ahead = bench.Ahead(tray);
        return ahead with { Nights = ahead.Nights + (work.OnRack ? work.ReleaseDay : 0) };
    }

    private int WantedUpTo(TrialPeg last)
    {
        var pegs = book.PegsOn(last.Batch);
        return pegs.TakeWhile(peg => peg.Order != last.Order).Sum(peg => peg.Quantity)
            + pegs.Where(peg => peg.Order == last.Order).Sum(peg => peg.Quantity);
    }
}

using ReedShop.Planning.Promising;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// Who waits for which reeds in one draw, and the reeds that nobody waits for. The earliest promise is served first, and
/// the latest gives up what is missing.
/// </summary>
internal sealed class ReedsOwed
{
    private const int Nobody = -1;

    private readonly ForecastBook book;
    private readonly string[] models;
    private readonly FreeReeds free;
    private readonly ReedsOfOthers others;
    private readonly int[] alive;
    private readonly bool[] usedExtra;
    private readonly bool[] hasExtra;
    private readonly int[] modelOfRoot;
    private readonly Arrival[] arrivals;
    private readonly List<Waiting> waiting = [];
    private readonly List<Waiting> waitingAtFirst = [];
    private readonly List<int> unmade = [];

    /// <summary>By peg, reeds near enough that came out of its own batch.</summary>
    private readonly int[] ofOwnBatch;
    private readonly PegChains chains;

    /// <summary>Reeds that no batch made when they came to wait; some have one by now.</summary>
    private readonly List<int> ofNobody = [];

    public ReedsOwed(ForecastBook book)
    {
        this.book = book;
        models = [.. book.State.Models.Keys.Order(StringComparer.Ordinal)];
        free = new FreeReeds(book.State, models);
        alive = new int[book.Roots.Count];
        usedExtra = new bool[book.Extras.Length];
        hasExtra = [.. models.Select(model => book.Extras.Any(extra => extra.Model == model))];
        modelOfRoot = new int[book.Roots.Count];
        foreach (var walker in book.Walkers)
        {
            modelOfRoot[walker.Root] = Array.IndexOf(models, walker.Tray.Model);
        }

        chains = new PegChains(book.Roots.Count);
        arrivals = new Arrival[book.State.Promises.Count];
        for (var promise = 0; promise < arrivals.Length; promise++)
        {
            foreach (var pegs in book.State.Promises[promise].Pegs)
            {
                var root = pegs.Root is { } id && book.Roots.TryGetValue(id, out var number) ? number : Nobody;
                waitingAtFirst.Add(
                    new Waiting(promise, Array.IndexOf(models, pegs.Model), [.. pegs.Accepted], root, pegs.Quantity)
                );
            }
        }

        ofOwnBatch = new int[waitingAtFirst.Count];
        var isWanted = new bool[free.Kinds];
        foreach (var peg in waitingAtFirst)
        {
            foreach (var strength in peg.Accepted)
            {
                isWanted[FreeReeds.Place(peg.Model, strength)] = true;
            }
        }

        others = new ReedsOfOthers(free, isWanted);
    }

    /// <summary>Reeds, by number, that no batch makes.</summary>
    public ReadOnlySpan<int> Unmade => System.Runtime.InteropServices.CollectionsMarshal.AsSpan(unmade);

    /// <summary>What became free in the draw, and what was taken.</summary>
    public IReadOnlyCollection<ReedsMoved> Moves => free.Moves;

    /// <param name="moves">Of others that were drawn before.</param>
    public void Clear(Chances chances, ReedsMoved[] moves)
    {
        free.Clear(chances);
        others.Begin(moves);
        Array.Clear(alive);
        Array.Clear(usedExtra);
        Array.Clear(arrivals);
        Array.Clear(ofOwnBatch);
        waiting.Clear();
        waiting.AddRange(waitingAtFirst);
        unmade.Clear();
        ofNobody.Clear();
        chains.Clear();
        for (var peg = 0; peg < waiting.Count; peg++)
        {
            if (waiting[peg].Root == Nobody)
            {
                ofNobody.Add(peg);
                FindUnmade(peg);
            }
            else
            {
                chains.Add(peg, waiting[peg].Root);
            }
        }
    }

    /// <summary>What nothing makes may lie in the drawer by now; otherwise it is missing.</summary>
    private void FindUnmade(int peg)
    {
        FromDrawer(peg, 0);
        if (waiting[peg].Quantity > 0)
        {
            unmade.Add(peg);
            ref var arrival = ref arrivals[waiting[peg].Promise];
            arrival = arrival with { WasShort = true, LackedCane = !hasExtra[waiting[peg].Model] };
        }
    }

    /// <summary>Whoever waits for reeds that nobody makes is served from those that others free by a day.</summary>
    private void Meet(int day)
    {
        while (others.Meet(day) is { } moved)
        {
            foreach (var peg in ofNobody)
            {
                if (waiting[peg].Root == Nobody)
                {
                    FromDrawer(peg, moved);
                }
            }
        }
    }

    /// <summary>Blanks that came to a batch, or left it where they are fewer.</summary>
    public void Add(int root, int blanks) => alive[root] += blanks;

    /// <summary>
    /// Finished reeds of a batch serve those who wait for them, earliest promise first. The rest is free: for those nobody
    /// makes any for, and then in the drawer.
    /// </summary>
    public void Serve(int root, Span<int> graded, int day)
    {
        Meet(day);
        for (var peg = chains.First(root); peg != PegChains.End; peg = chains.After(peg))
        {
            CountOwn(peg, graded);
            FromBatch(peg, graded, day);
        }

        free.Add(modelOfRoot[root], graded, day);
        for (var peg = chains.First(root); peg != PegChains.End; peg = chains.After(peg))
        {
            FromDrawer(peg, day);
        }

        foreach (var peg in ofNobody)
        {
            if (waiting[peg].Root == Nobody && waiting[peg].Model == modelOfRoot[root])
            {
                FromDrawer(peg, day);
            }
        }
    }

    /// <summary>
    /// What the latest promise on a batch lacks where fewer blanks are alive than reeds are owed: the drawer gives what it
    /// has, and for the rest somebody waits whom no batch serves. Null where nothing is missing.
    /// </summary>
    public int? TakeMissing(int root, int day)
    {
        Meet(day);
        var missing = -alive[root];
        var latest = Nobody;
        for (var peg = chains.First(root); peg != PegChains.End; peg = chains.After(peg))
        {
            if (waiting[peg].Quantity > 0)
            {
                missing += waiting[peg].Quantity;
                latest = peg;
            }
        }

        if (missing <= 0 || latest == Nobody)
        {
            return null;
        }

        var given = Math.Min(missing, waiting[latest].Quantity);
        waiting[latest] = waiting[latest] with { Quantity = waiting[latest].Quantity - given };
        waiting.Add(waiting[latest] with { Root = Nobody, Quantity = given });
        ref var arrival = ref arrivals[waiting[latest].Promise];
        arrival = arrival with { WasShort = true, LackedCane = !hasExtra[waiting[latest].Model] };
        ofNobody.Add(waiting.Count - 1);
        FromDrawer(waiting.Count - 1, day);
        return waiting.Count - 1;
    }

    /// <summary>The smallest size that covers what is missing, or else the largest there is; null where none is left.</summary>
    public ExtraBatch? ExtraFor(int peg)
    {
        var (missing, model) = (waiting[peg].Quantity, models[waiting[peg].Model]);
        ExtraBatch? found = null;
        for (var extra = 0; extra < book.Extras.Length && missing > 0; extra++)
        {
            var size = book.Extras[extra];
            if (usedExtra[extra] || size.Model != model || size.Covers <= found?.Covers)
            {
                continue;
            }

            found = size;
            if (size.Covers >= missing)
            {
                break;
            }
        }

        return found;
    }

    public Strength Wanted(int peg) => waiting[peg].Accepted[0];

    /// <summary>An extra batch makes the reeds.</summary>
    public void Make(int peg, int walker, int blanks)
    {
        var root = book.Walkers[walker].Root;
        usedExtra[walker - book.Extras[0].Number] = true;
        alive[root] += blanks;
        waiting[peg] = waiting[peg] with { Root = root };
        chains.Add(peg, root);
    }

    public void Arrivals(Span<Arrival> told)
    {
        Meet(Arrival.Never);
        for (var peg = 0; peg < ofOwnBatch.Length; peg++)
        {
            if (ofOwnBatch[peg] < waitingAtFirst[peg].Quantity)
            {
                ref var arrival = ref arrivals[waitingAtFirst[peg].Promise];
                arrival = arrival with { BatchFellShort = true };
            }
        }

        foreach (var peg in waiting)
        {
            if (peg.Quantity > 0)
            {
                arrivals[peg.Promise] = arrivals[peg.Promise] with { Day = Arrival.Never };
            }
        }

        arrivals.CopyTo(told);
    }

    private void CountOwn(int peg, Span<int> graded)
    {
        if (peg < ofOwnBatch.Length)
        {
            foreach (var strength in waiting[peg].Accepted)
            {
                ofOwnBatch[peg] += graded[strength.Quarters - Strength.LeastQuarters];
            }
        }
    }

    private void FromBatch(int peg, Span<int> graded, int day)
    {
        foreach (var strength in waiting[peg].Accepted)
        {
            ref var reeds = ref graded[strength.Quarters - Strength.LeastQuarters];
            var served = Math.Min(waiting[peg].Quantity, reeds);
            reeds -= served;
            Served(peg, served, day);
        }
    }

    private void FromDrawer(int peg, int day)
    {
        foreach (var strength in waiting[peg].Accepted)
        {
            Served(peg, free.Take(waiting[peg].Model, strength, waiting[peg].Quantity, day), day);
        }
    }

    private void Served(int peg, int reeds, int day)
    {
        if (reeds > 0)
        {
            waiting[peg] = waiting[peg] with { Quantity = waiting[peg].Quantity - reeds };
            ref var arrival = ref arrivals[waiting[peg].Promise];
            arrival = arrival with { Day = Math.Max(arrival.Day, day) };
        }
    }

    /// <param name="Root">The batch that makes them, or <see cref="Nobody"/>.</param>
    private readonly record struct Waiting(int Promise, int Model, Strength[] Accepted, int Root, int Quantity);
}

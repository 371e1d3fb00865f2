using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Forecasting;

/// <summary>
/// One draw of the shop after another: nights and evenings as they fall, the plan recovered by the rule, and then, day by
/// day, what the steps leave. Blanks to be worked again and extra batches for missing reeds take the evenings that are
/// left, whoever needs them first. One instance serves one thread.
/// </summary>
internal sealed class ForecastDraw
{
    private readonly ForecastBook book;
    private readonly RecoveryRule rule;
    private readonly DrawnDays days;
    private readonly ReedsOwed owed;
    private readonly Luck luck;
    private readonly int[] standing;
    private readonly int[] recovered;
    private readonly int[] releases;
    private readonly int[] alive;
    private readonly Strength?[] aims;
    private readonly PriorityQueue<(int Walker, int Sitting), long> happenings = new();

    public ForecastDraw(ForecastBook book)
    {
        this.book = book;
        rule = new RecoveryRule(book.Work);
        days = new DrawnDays(book.State);
        owed = new ReedsOwed(book);
        luck = new Luck(book);
        standing = rule.DaysOf(book.State.Plan);
        rule.KeepPeople(book.State.Plan);
        recovered = new int[standing.Length];
        releases = new int[book.Walkers.Length];
        alive = new int[book.Walkers.Length];
        aims = new Strength?[book.Walkers.Length];
    }

    /// <summary>When the reeds of every promise are there, in one draw.</summary>
    /// <param name="dry">As it would be were every night dry: what is still late then is not late for damp nights.</param>
    public void Run(Chances chances, Span<Arrival> arrivals, bool dry = false)
    {
        days.Draw(chances, dry);
        Begin(chances, days.DampNights, []);
        rule.Recover(standing, days.OpenMinutes, releases, recovered, days.DampNights);
        Walk(arrivals);
    }

    /// <summary>The same of a few batches among those of a shop that was drawn before.</summary>
    public void RunAmong(StandingDraw others, Chances chances, Span<Arrival> arrivals)
    {
        Begin(chances, others.Days.DampNights, others.Moves);
        rule.RecoverAmong(others.Days, standing, releases);
        Walk(arrivals);
    }

    public StandingWork Work() => rule.Standing(standing);

    /// <summary>Runs a draw that others may be among.</summary>
    public StandingDraw Keep(StandingWork work, Chances chances)
    {
        var arrivals = new Arrival[book.State.Promises.Count];
        Run(chances, arrivals);
        return new StandingDraw(
            rule.Keep(work, days.OpenMinutes, days.DampNights),
            [.. owed.Moves.OrderBy(move => move.Day)],
            arrivals
        );
    }

    private void Walk(Span<Arrival> arrivals)
    {
        for (var walker = 0; walker < book.Standing; walker++)
        {
            Stand(walker);
        }

        StartMissing(0);
        while (happenings.TryDequeue(out var happening, out _))
        {
            Happen(happening.Walker, happening.Sitting);
        }

        owed.Arrivals(arrivals);
    }

    /// <summary>Blanks on the rack lie there as many nights more as they need dry ones.</summary>
    private void Begin(Chances chances, bool[] dampNights, ReedsMoved[] others)
    {
        luck.Draw(chances);
        owed.Clear(chances, others);
        Array.Fill(releases, RecoveryRule.NoDay);
        for (var walker = 0; walker < book.Standing; walker++)
        {
            var batch = book.Work.Batches[walker];
            releases[walker] = batch.OnRack
                ? AfterDryNights(batch.ReleaseDay, dampNights)
                : Math.Max(0, batch.ReleaseDay);
        }

        for (var walker = 0; walker < alive.Length; walker++)
        {
            alive[walker] = walker < book.Standing ? book.Walkers[walker].Tray.Blanks : 0;
            aims[walker] = book.Walkers[walker].Tray.Aim;
        }
    }

    private static int AfterDryNights(int nights, bool[] dampNights)
    {
        var day = Math.Max(0, nights);
        for (var night = 0; night < day && night < dampNights.Length; night++)
        {
            day += dampNights[night] ? 1 : 0;
        }

        return day;
    }

    /// <summary>A batch that lies past its most nights in this draw is soaked and dried once more.</summary>
    private void Stand(int walker)
    {
        if (book.Walkers[walker].Tray.Aim is null)
        {
            return;
        }

        owed.Add(book.Walkers[walker].Root, alive[walker]);
        if (rule.IsPlaced(walker))
        {
            Await(walker, 0);
        }
        else if (book.Again[walker] is var again and >= 0 && rule.Join(again, releases[walker]) is not null)
        {
            alive[again] = alive[walker];
            Await(again, 0);
        }
    }

    /// <summary>The next sitting of a walker after which something is counted.</summary>
    private void Await(int walker, int from)
    {
        var counts = book.Walkers[walker].Counts;
        for (var k = from; k < counts.Length; k++)
        {
            if (counts[k].Length > 0)
            {
                happenings.Enqueue((walker, k), ((long)rule.DayOf(walker, k) << 32) | (uint)walker);
                return;
            }
        }
    }

    private void Happen(int walker, int sitting)
    {
        var day = rule.DayOf(walker, sitting);
        var entry = book.Walkers[walker];
        foreach (var step in entry.Counts[sitting])
        {
            var kept = luck.Survivors(walker, step, alive[walker]);
            owed.Add(entry.Root, kept - alive[walker]);
            alive[walker] = kept;
            if (step.IsGraded)
            {
                owed.Add(entry.Root, -kept);
                owed.Serve(entry.Root, luck.Graded(walker, kept, aims[walker]!.Value), rule.DayAfter(walker, sitting));
            }
            else
            {
                SendAgain(walker, step, day);
            }
        }

        StartMissing(day + 1, entry.Root);
        Await(walker, sitting + 1);
    }

    private void SendAgain(int walker, CountedStep step, int day)
    {
        if (step.Again >= 0 && luck.Failed(walker, step, alive[walker]) is var failed and > 0)
        {
            // Where no evening is left for them they go on with the others: a maker would find a quarter of an hour.
            if (rule.Join(step.Again, day + 1) is not null)
            {
                alive[walker] -= failed;
                alive[step.Again] = failed;
                Await(step.Again, 0);
            }
        }
    }

    /// <summary>Reeds that no batch makes when the draw begins.</summary>
    private void StartMissing(int day)
    {
        foreach (var peg in owed.Unmade)
        {
            Start(peg, day);
        }
    }

    /// <summary>A batch with fewer blanks alive than it owes reeds gets an extra one, for the latest promises.</summary>
    private void StartMissing(int day, int root)
    {
        while (owed.TakeMissing(root, day) is { } peg)
        {
            Start(peg, day);
        }
    }

    private void Start(int peg, int day)
    {
        if (owed.ExtraFor(peg) is { } extra && rule.Join(extra.Number, Math.Max(day, extra.NotBefore)) is not null)
        {
            var blanks = book.Walkers[extra.Number].Tray.Blanks;
            alive[extra.Number] = blanks;
            aims[extra.Number] = owed.Wanted(peg);
            owed.Make(peg, extra.Number, blanks);
            Await(extra.Number, 0);
        }
    }
}

using ReedShop.Planning.Promising;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab.Trials;

/// <summary>
/// The book as the planner and the promiser read it; day 0 is today. The service reads its rows in the same way, and the
/// trials follow it, because what it leaves out no trial would see.
/// </summary>
internal sealed class BenchWorkload
{
    /// <summary>Longer than any promise of the trials, and quicker to plan than the ten months of the service.</summary>
    private const int HorizonDays = 180;

    private readonly Book book;
    private readonly Dictionary<string, IReadOnlyList<BenchSitting>> sittings;

    public BenchWorkload(Book book)
    {
        this.book = book;
        Trays = book.OpenTrays.ToDictionary(tray => tray.Id, StringComparer.Ordinal);
        var usual = book.Premises.Bench.UsualMinutes(book.Today);
        sittings = Trays.ToDictionary(tray => tray.Key, tray => Left(tray.Value, usual), StringComparer.Ordinal);
        var routes = book.Premises.Models.Select(model => model.Route).ToArray();
        Work = new Workload(
            OpenMinutes(),
            book.Premises.RackBlanks,
            BatchWork.SetUpMinutes(routes),
            [.. Trays.Values.Select(WorkOf)]
        )
        {
            MostBlanks = BatchWork.MostBlanks(routes),
        };
        Standing = StandingPlan();
        Current = new(
            Standing.Days.Where(days => days.Value.All(day => day >= 0)).ToDictionary(StringComparer.Ordinal)
        );
    }

    public IReadOnlyDictionary<string, TrialTray> Trays { get; }

    public Workload Work { get; }

    /// <summary>Days that have passed undone are negative: the recovery rule makes them up first.</summary>
    public Plan Standing { get; }

    /// <summary>The standing plan as far as it can still be done.</summary>
    public Plan Current { get; }

    public IReadOnlyList<BenchSitting> Sittings(string tray) => sittings[tray];

    /// <summary>When the last night of a tray is over, counted from today; null when it has no place.</summary>
    public int? FinishDay(TrialTray tray) =>
        Current.Days.TryGetValue(tray.Id, out var days) ? days[^1] + sittings[tray.Id][^1].Work.Nights : null;

    public WayAhead Ahead(TrialTray tray) => WayAhead.Of(sittings[tray.Id]);

    /// <summary>Writes a plan into the book.</summary>
    public void Keep(Plan plan)
    {
        foreach (var (id, tray) in Trays)
        {
            tray.Days = plan.Days.TryGetValue(id, out var days)
                ? sittings[id].Zip(days).ToDictionary(day => (day.First.LastStep, day.First.Part), Date)
                : [];
        }

        DateOnly Date((BenchSitting First, int Second) day) => book.Today.AddDays(day.Second);
    }

    /// <summary>Batches that make way take their new days.</summary>
    public void Move(Plan moved) =>
        Keep(moved.Days.Aggregate(Standing, (plan, batch) => plan.With(batch.Key, batch.Value)));

    private static IReadOnlyList<BenchSitting> Left(TrialTray tray, int usualMinutes)
    {
        var route = tray.Batch.Route;
        return BatchWork.Sittings(route, tray.NextStep, route.Steps.Count, tray.Blanks, usualMinutes);
    }

    private int[] OpenMinutes()
    {
        var open = book.Premises.Bench.OpenMinutes(book.Today, HorizonDays);
        open[0] = book.EveningIsOver ? 0 : open[0];
        return open;
    }

    private WorkBatch WorkOf(TrialTray tray)
    {
        var due = book.Pegs.Where(peg => peg.Batch == tray.Batch).Min(peg => (DateOnly?)peg.Order.FinishBy);
        return new WorkBatch(
            tray.Id,
            tray.Blanks,
            Math.Max(0, FromToday(FirstDay(tray))),
            due is { } day ? Math.Max(0, FromToday(day)) : null,
            [.. sittings[tray.Id].Select(sitting => sitting.Work)],
            OnRack: tray.LastWorkedOn is not null
        );
    }

    /// <summary>The first day the next step may be done: after the nights the last step asks for, and the damp ones.</summary>
    public static DateOnly FirstDay(TrialTray tray)
    {
        if (tray.LastWorkedOn is not { } worked)
        {
            return tray.NotBefore;
        }

        var dry = tray.Batch.Route[tray.NextStep - 1].Then as Follow.Dry;
        var dried = worked.AddDays((dry?.Nights ?? 0) + tray.DampNights);
        return dried > tray.NotBefore ? dried : tray.NotBefore;
    }

    private Plan StandingPlan()
    {
        var days = new Dictionary<string, int[]>(StringComparer.Ordinal);
        foreach (var (id, tray) in Trays)
        {
            var found = sittings[id].Select(sitting => Planned(tray, sitting)).ToArray();
            if (found.All(day => day is not null))
            {
                days[id] = [.. found.Select(day => FromToday(day!.Value))];
            }
        }

        return new Plan(days);
    }

    private static DateOnly? Planned(TrialTray tray, BenchSitting sitting) =>
        tray.Days.TryGetValue((sitting.LastStep, sitting.Part), out var day) ? day : null;

    private int FromToday(DateOnly day) => day.DayNumber - book.Today.DayNumber;
}

using System.Globalization;
using ReedShop.Planning.Routes;

namespace ReedShop.Planning.Scheduling;

/// <summary>
/// How many blanks of a sitting go to the bench today. When all do not fit, as many as can walk the whole sitting are
/// taken, so that they dry tonight; when none can, as many as can walk the longest part of it. Blanks that cannot be
/// worked after their soak today are not put into the water.
/// </summary>
/// <param name="Allowed">Blanks at each step if the day had no end: only the most per day counts.</param>
internal sealed record DayListShare(DayListWork Work, IReadOnlyList<int> Allowed)
{
    /// <summary>Shares in the order of the sittings, which is that of their priority.</summary>
    public static IReadOnlyList<DayListShare> Of(DayListHours hours, IReadOnlyList<DaySitting> ranked)
    {
        var whole = Taken(ranked, (_, trials) => trials.First());
        return Fits(whole)
            ? whole
            : Taken(ranked, (before, trials) => trials.First(work => work.Blanks.Count == 0 || Fits(before, work)));

        bool Fits(List<DayListShare> before, params DayListWork[] work) =>
            DayListSearch.Fits(hours, [.. before.Select(share => share.Work), .. work]);
    }

    /// <summary>The blanks that wait, before the step at which they wait.</summary>
    public IEnumerable<CarriedBlanks> Carried(DayListHours hours)
    {
        var sitting = Work.Sitting;
        var (came, allowed) = (sitting.Blanks, sitting.Blanks);
        for (var step = 0; step < sitting.Steps.Count; step++)
        {
            var worked = step <= Work.LastStep ? Work.Blanks[step] : 0;
            var waiting = came - worked;
            if (waiting > 0)
            {
                var reason = waiting <= allowed - Allowed[step] ? MostPerDay(step) : NoRoom(hours);
                var (number, name) = (sitting.FirstStep + step, sitting.Steps[step].Name);
                yield return new CarriedBlanks(sitting.Batch, number, name, waiting, reason);
            }

            (came, allowed) = (worked, Allowed[step]);
        }
    }

    /// <summary>Lips and hands tire by what is done, not by batch: the most per day is shared by steps of one name.</summary>
    private static List<DayListShare> Taken(
        IReadOnlyList<DaySitting> ranked,
        Func<List<DayListShare>, IEnumerable<DayListWork>, DayListWork> choice
    )
    {
        var worked = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var shares = new List<DayListShare>();
        foreach (var sitting in ranked)
        {
            var work = choice(shares, Trials(sitting, worked));
            shares.Add(new DayListShare(work, Share(sitting, sitting.Steps.Count, sitting.Blanks, worked)));
            for (var step = 0; step <= work.LastStep; step++)
            {
                var name = work[step].Name;
                worked[name] = worked.GetValueOrDefault(name) + work.Blanks[step];
            }
        }

        return shares;
    }

    /// <summary>What may be taken of a sitting, the most wanted first and nothing last.</summary>
    private static IEnumerable<DayListWork> Trials(DaySitting sitting, Dictionary<string, int> worked)
    {
        for (var steps = sitting.Steps.Count; steps > 0; steps--)
        {
            if (steps < sitting.Steps.Count && sitting.Steps[steps - 1].Then is Follow.Soak)
            {
                continue;
            }

            for (var blanks = sitting.Blanks; blanks > 0; blanks--)
            {
                var share = Share(sitting, steps, blanks, worked);
                yield return new DayListWork(sitting, [.. share.TakeWhile(count => count > 0)]);
            }
        }

        yield return new DayListWork(sitting, []);
    }

    private static int[] Share(DaySitting sitting, int steps, int blanks, Dictionary<string, int> worked)
    {
        var share = new int[steps];
        for (var step = 0; step < steps; step++)
        {
            var (name, most) = (sitting.Steps[step].Name, sitting.Steps[step].MostPerDay ?? int.MaxValue);
            blanks = share[step] = Math.Clamp(most - worked.GetValueOrDefault(name), 0, blanks);
        }

        for (var step = steps - 2; step >= 0; step--)
        {
            share[step] = sitting.Steps[step].Then is Follow.Soak ? share[step + 1] : share[step];
        }

        return share;
    }

    private string MostPerDay(int step)
    {
        var tiring = Work.Sitting.Steps.Skip(step).First(next => next.MostPerDay is not null);
        return $"at most {tiring.MostPerDay} a day at {tiring.Name}";
    }

    private string NoRoom(DayListHours hours)
    {
        if (hours.Closing == 0)
        {
            return "the bench is closed";
        }

        if (Work.Sitting.NotBefore == TimeOnly.MaxValue)
        {
            return "the night is not over today";
        }

        var closes = $"the bench closes at {Clock(DayListHours.TimeOf(hours.Closing))}";
        return Work.Sitting.NotBefore is { } time ? $"not before {Clock(time)}, and {closes}" : closes;
    }

    private static string Clock(TimeOnly time) => time.ToString("H:mm", CultureInfo.InvariantCulture);
}

using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;
using ReedShop.Planning.Yields;

namespace ReedShop.Lab.Trials;

/// <summary>One evening at the bench: what was planned for it, as far as the minutes last.</summary>
internal sealed class Evening(Book book, Nature nature, Keeping keeping)
{
    /// <summary>Laying out a plate for less than this part of the blanks is not worth it.</summary>
    private const double LeastPart = 0.5;

    private readonly HashSet<string> laidOut = [];
    private double minutesLeft;

    public void Work(double minutes)
    {
        minutesLeft = minutes;
        var bench = new BenchWorkload(book);
        var touched = new HashSet<TrialBatch>();
        var (planned, done) = (0.0, 0.0);
        foreach (var work in bench.Work.Batches.Where(IsDue).OrderBy(batch => batch.DueDay ?? int.MaxValue))
        {
            var sitting = bench.Sittings(work.Id)[0];
            var worked = Work(bench.Trays[work.Id], sitting);
            planned += sitting.Work.Minutes;
            done += (double)sitting.Work.Minutes * worked / sitting.Blanks;
            if (worked > 0)
            {
                touched.Add(bench.Trays[work.Id].Batch);
            }
        }

        if (planned > 0)
        {
            book.Evenings.Add(new PlannedEvening(book.Today, (int)planned, (int)done));
        }

        book.EveningIsOver = true;
        book.EveningsUsed += touched.Count > 0 ? 1 : 0;
        book.HasNews |= touched.Count > 0;
        foreach (var batch in touched.OrderBy(batch => batch.Number))
        {
            keeping.CoverShortage(batch);
        }

        bool IsDue(WorkBatch work) =>
            bench.Standing.Days.TryGetValue(work.Id, out var days) && days[0] <= 0 && work.ReleaseDay == 0;
    }

    /// <summary>Does the sitting for as many blanks as the minutes left allow, unless those are too few; says for how many.</summary>
    private int Work(TrialTray tray, BenchSitting sitting)
    {
        Step[] steps =
        [
            .. tray.Batch.Route.Steps.Skip(sitting.FirstStep - 1).Take(1 + sitting.LastStep - sitting.FirstStep),
        ];
        var setUps = steps.Select(step => step.SetUp).DistinctBy(setUp => setUp.Key).ToArray();
        var forSetUps = setUps.Where(setUp => !laidOut.Contains(setUp.Key)).Sum(setUp => setUp.Minutes);
        var blanks = sitting.Blanks;
        while (blanks > 0 && forSetUps + HandsOn(steps, blanks) > minutesLeft)
        {
            blanks--;
        }

        if (blanks < Math.Max(1, LeastPart * sitting.Blanks))
        {
            return 0;
        }

        minutesLeft -= forSetUps + HandsOn(steps, blanks);
        laidOut.UnionWith(setUps.Select(setUp => setUp.Key));
        Record(tray, blanks, sitting.LastStep);
        return blanks;
    }

    private void Record(TrialTray tray, int blanks, int lastStep)
    {
        book.BenchWaits.Add(
            new Stay(BenchWorkload.FirstDay(tray).DayNumber, book.Today.DayNumber, book.Today.DayNumber)
        );
        Carry(tray, tray.Blanks - blanks);
        while (tray.NextStep <= lastStep && tray.Blanks > 0)
        {
            Record(tray, tray.Batch.Route[tray.NextStep]);
        }
    }

    private static int HandsOn(IEnumerable<Step> steps, int blanks) => steps.Sum(step => step.HandsOnMinutes(blanks));

    /// <summary>Blanks that do not get their turn today wait for another evening on a tray of their own.</summary>
    private void Carry(TrialTray tray, int blanks)
    {
        if (blanks > 0)
        {
            tray.Blanks -= blanks;
            var carried = SplitOff(tray, blanks, tray.NextStep, book.Today.AddDays(1));
            (carried.RedoOf, carried.LastWorkedOn, carried.DampNights) = (
                tray.RedoOf,
                tray.LastWorkedOn,
                tray.DampNights
            );
        }
    }

    private void Record(TrialTray tray, Step step)
    {
        var (number, blanks) = (tray.NextStep, tray.Blanks);
        var (passed, again, rejected) =
            step.Check == Check.None ? (blanks, 0, 0) : nature.Work(tray.Address, step, blanks);
        tray.Batch.Records.Add(
            new BenchRecord(tray.Batch.Id, number, blanks, passed, rejected, again, tray.RedoOf, book.Today)
        );
        if (again > 0)
        {
            var redone = SplitOff(tray, again, tray.Batch.Route.RedoStep(number), book.Today);
            redone.RedoOf = Math.Max(tray.RedoOf ?? 0, number);
        }

        tray.Blanks = passed;
        tray.NextStep++;
        tray.RedoOf = tray.RedoOf >= tray.NextStep ? tray.RedoOf : null;
        (tray.LastWorkedOn, tray.DampNights) = (book.Today, 0);
        book.HistoryRecords += step.Check == Check.None ? 0 : 1;
        if (step.Check == Check.Graded)
        {
            Grade(tray);
        }
    }

    private void Grade(TrialTray tray)
    {
        var batch = tray.Batch;
        var grades = nature.Grades(tray.Address, batch.Aim, tray.Blanks, book.Premises.QuartersBetweenGrades);
        tray.Blanks = 0;
        book.Grades.Add(new BatchGrades(batch.Id, batch.Model.Name, batch.Lot, book.Today, batch.Aim, grades));
        foreach (var (strength, reeds) in grades)
        {
            var kind = (batch.Model.Name, strength);
            book.Drawer[kind] = book.Drawer.GetValueOrDefault(kind) + reeds;
            batch.Landed[strength] = batch.Landed.GetValueOrDefault(strength) + reeds;
        }

        keeping.ServeFromDrawer(batch);
    }

    private static TrialTray SplitOff(TrialTray tray, int blanks, int nextStep, DateOnly notBefore)
    {
        var split = new TrialTray(tray.Batch, tray.Batch.Trays.Count, blanks, nextStep, notBefore);
        tray.Batch.Trays.Add(split);
        return split;
    }
}

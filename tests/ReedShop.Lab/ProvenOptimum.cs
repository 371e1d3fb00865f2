using Google.OrTools.Sat;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab;

/// <summary>
/// The least cost of a small workload, proven by the CP-SAT solver of Google OR-Tools: the rules and the cost are
/// written down a second time, as constraints, so that a rule the planner misreads comes to light.
/// </summary>
internal sealed class ProvenOptimum
{
    private readonly Workload work;
    private readonly CpModel model = new();
    private readonly Dictionary<(int Day, string Key), BoolVar> used = [];
    private readonly List<(LinearExpr Minutes, int Day)> minutes = [];

    private ProvenOptimum(Workload work) => this.work = work;

    private int Days => work.OpenMinutes.Count;

    /// <summary>Null where the solver did not prove it in time; a workload whose batches do not all fit has none.</summary>
    /// <remarks>Every batch has a due day, and the rack is charged by the whole stay.</remarks>
    public static long? Of(Workload work, TimeSpan time)
    {
        var optimum = new ProvenOptimum(work);
        optimum.model.Minimize(optimum.Cost());
        optimum.KeepOpenMinutes();
        using var solver = new CpSolver();
        solver.StringParameters = FormattableString.Invariant(
            $"max_time_in_seconds:{time.TotalSeconds},num_workers:1,random_seed:1"
        );
        return solver.Solve(optimum.model) == CpSolverStatus.Optimal ? (long)Math.Round(solver.ObjectiveValue) : null;
    }

    private LinearExpr Cost()
    {
        var rack = model.AddCumulative(work.RackBlanks);
        return LinearExpr.Sum(work.Batches.Select(batch => CostOf(batch, rack)));
    }

    private LinearExpr CostOf(WorkBatch batch, CumulativeConstraint rack)
    {
        var days = batch.Sittings.Select((sitting, k) => DayOf(batch, sitting, k)).ToArray();
        for (var k = 1; k < days.Length; k++)
        {
            model.Add(days[k] - days[k - 1] >= batch.LeastNightsAfter(k - 1));
            if (batch.Sittings[k - 1].MostNights is { } most)
            {
                model.Add(days[k] - days[k - 1] <= most);
            }
        }

        var finish = days[^1] + batch.Sittings[^1].Nights;
        var stay = model.NewIntVar(0, 2 * Days, $"stay of {batch.Id}");
        model.Add(stay == finish - days[0]);
        rack.AddDemand(model.NewIntervalVar(days[0], stay, finish, $"on the rack {batch.Id}"), batch.Blanks);
        var late = Positive(finish - batch.DueDay!.Value, $"late {batch.Id}");
        var early = Positive(batch.DueDay!.Value - finish, $"early {batch.Id}");
        return (1000 * batch.Weight * late) + early + stay - batch.LeastStay;
    }

    private IntVar Positive(LinearExpr expression, string name)
    {
        var positive = model.NewIntVar(0, 3 * Days, name);
        model.Add(positive >= expression);
        return positive;
    }

    /// <summary>The day of a sitting as a number, and as one choice among the days that charges what it takes there.</summary>
    private IntVar DayOf(WorkBatch batch, WorkSitting sitting, int number)
    {
        var name = $"{batch.Id}.{number}";
        var day = model.NewIntVar(batch.ReleaseDay, Days - 1, name);
        var on = Enumerable.Range(0, Days).Select(t => model.NewBoolVar($"{name} on {t}")).ToArray();
        model.AddExactlyOne(on);
        model.Add(day == LinearExpr.WeightedSum(on, Enumerable.Range(0, Days)));
        for (var t = 0; t < Days; t++)
        {
            minutes.Add((on[t] * sitting.Minutes, t));
            foreach (var key in sitting.SetUps)
            {
                model.AddImplication(on[t], Used(t, key));
            }
        }

        return day;
    }

    private BoolVar Used(int day, string key)
    {
        if (!used.TryGetValue((day, key), out var isUsed))
        {
            isUsed = model.NewBoolVar($"{key} on {day}");
            used.Add((day, key), isUsed);
            minutes.Add((isUsed * work.SetUpMinutes[key], day));
        }

        return isUsed;
    }

    private void KeepOpenMinutes()
    {
        foreach (var day in minutes.GroupBy(charge => charge.Day))
        {
            model.Add(LinearExpr.Sum(day.Select(charge => charge.Minutes)) <= work.OpenMinutes[day.Key]);
        }
    }
}

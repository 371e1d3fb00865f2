using ReedShop.Planning.Promising;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Quotes;

/// <summary>How full the days ahead are by the plan.</summary>
internal sealed class BenchLoad
{
    /// <summary>Of the days before a finish: fewer full ones than this explain nothing.</summary>
    private const double Most = 0.5;

    private readonly Workload work;
    private readonly int[] minutes;
    private readonly Dictionary<(int Day, string Name), int> tiring = [];

    public BenchLoad(ShopState state)
    {
        work = state.Work;
        minutes = new int[work.OpenMinutes.Count];
        var ready = new HashSet<(int Day, string Key)>();
        foreach (var batch in work.Batches.Where(batch => state.Plan.Days.ContainsKey(batch.Id)))
        {
            foreach (var (sitting, day) in batch.Sittings.Zip(state.Plan.Days[batch.Id]).Where(at => at.Second >= 0))
            {
                minutes[day] +=
                    sitting.Minutes
                    + sitting.SetUps.Where(key => ready.Add((day, key))).Sum(key => work.SetUpMinutes[key]);
                if (sitting.Tiring is { } done)
                {
                    tiring[(day, done.Name)] = tiring.GetValueOrDefault((day, done.Name)) + done.Blanks;
                }
            }
        }
    }

    /// <summary>The first step of these whose blanks find no room on most open days before a day; null where none.</summary>
    public string? TiringFull(IEnumerable<WorkSitting> sittings, int before) =>
        sittings
            .Select(sitting => sitting.Tiring)
            .OfType<TiringWork>()
            .FirstOrDefault(step =>
                AreMost(
                    before,
                    day => tiring.GetValueOrDefault((day, step.Name)) + step.Blanks > work.MostBlanksOn(step.Name, day)
                )
            )
            ?.Name;

    /// <summary>
    /// Whether most days before a day have no room for the shortest of these. Where several people share the bench it is
    /// not told from here.
    /// </summary>
    public bool EveningsFull(IReadOnlyCollection<WorkSitting> sittings, int before)
    {
        var least = sittings.Select(sitting => sitting.Minutes).DefaultIfEmpty(0).Min();
        return work.People == 1
            && AreMost(before, day => minutes[day] + least > work.OpenMinutes[day], closedToo: true);
    }

    private bool AreMost(int before, Func<int, bool> isFull, bool closedToo = false)
    {
        var days = Enumerable
            .Range(1, Math.Max(0, Math.Min(before, minutes.Length) - 1))
            .Where(day => closedToo || work.OpenMinutes[day] > 0)
            .ToArray();
        return days.Length > 0 && days.Count(isFull) > Most * days.Length;
    }
}

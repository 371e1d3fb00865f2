namespace ReedShop.Workshop;

/// <summary>An evening that is over: what was planned for the maker, and what came of it.</summary>
public sealed class PastEvening
{
    public required DateOnly Date { get; init; }

    public required int PlannedMinutes { get; init; }

    public required int DoneMinutes { get; init; }
}

/// <summary>
/// Notes how the evenings went, before the plan of a new day forgets what was left undone. What the maker records the
/// morning after counts as that morning's work.
/// </summary>
public sealed class PastEvenings(PlanStore plan, BatchStore batches)
{
    public async Task Close(BenchFacts facts, CancellationToken cancel)
    {
        // The first plan ever has no evening before it.
        for (var day = facts.Key.Day; day > DateOnly.MinValue && day < facts.Today; day = day.AddDays(1))
        {
            var left = facts.Sittings.Where(s => s.Day == day && s.Helper is null).Sum(sitting => sitting.Minutes);
            var records = await batches.RecordsOn(day, cancel);
            var done = records.Where(record => record.Helper is null).Sum(record => record.WorkedMinutes);
            if (left + done > 0)
            {
                plan.Add(
                    new PastEvening
                    {
                        Date = day,
                        PlannedMinutes = left + done,
                        DoneMinutes = done,
                    }
                );
            }
        }
    }
}

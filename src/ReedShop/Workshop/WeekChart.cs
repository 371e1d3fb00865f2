namespace ReedShop.Workshop;

/// <summary>What one batch does on one day, and whether its thread comes in from the night before and goes on.</summary>
public sealed record WeekCell(
    IReadOnlyList<SittingView> Sittings,
    IReadOnlyList<DoneView> Done,
    bool FromNight,
    bool ToNight
)
{
    public bool IsEmpty => Sittings.Count == 0 && Done.Count == 0;

    /// <summary>On the rack by day: nothing to do.</summary>
    public bool Rests => IsEmpty && FromNight && ToNight;
}

/// <summary>One batch of the week: a thread of cells, one a day, with the night after it.</summary>
public sealed record WeekThread(WeekBatch Batch, IReadOnlyList<WeekCell> Days, IReadOnlyList<DryingView?> Nights)
{
    public bool IsEmpty => Days.All(day => day.IsEmpty) && Nights.All(night => night is null);
}

/// <summary>The week laid out as threads, for drawing.</summary>
public static class WeekChart
{
    /// <summary>Threads of the batches that do something this week.</summary>
    public static IReadOnlyList<WeekThread> Of(WeekView week) =>
        [.. week.Batches.Select(batch => Thread(week, batch)).Where(thread => !thread.IsEmpty)];

    private static WeekThread Thread(WeekView week, WeekBatch batch)
    {
        var nights = week.Days.Select(day => day.Drying.FirstOrDefault(d => d.Batch == batch.Batch)).ToArray();
        var days = week.Days.Select(
            (day, index) =>
                new WeekCell(
                    [.. day.Sittings.Where(sitting => sitting.Batch == batch.Batch)],
                    [.. day.Done.Where(done => done.Batch == batch.Batch)],
                    index == 0 ? week.DryingBefore.Any(d => d.Batch == batch.Batch) : nights[index - 1] is not null,
                    nights[index] is not null
                )
        );
        return new WeekThread(batch, [.. days], nights);
    }
}

using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Planning.Tests.Scheduling;

/// <summary>
/// Every order of a day's steps, written anew from the rules and walked minute by minute. Shares no code with the list
/// it judges: a step goes on until it is done or its stretch closes, and starts only where its set-up and one blank fit.
/// Knows no most per day. Sittings are given in priority order.
/// </summary>
internal sealed class DayListEnumeration(IReadOnlyList<OpenHours> hours, IReadOnlyList<DaySitting> sittings)
{
    private readonly List<Line> lines = [];

    /// <summary>For every minute of the day the end of the stretch it lies in, -1 where the bench is closed.</summary>
    private readonly int[] closes =
    [
        .. Enumerable
            .Range(0, 24 * 60)
            .Select(minute =>
                hours
                    .Where(open => Minute(open.From) <= minute && minute <= Minute(open.To))
                    .Select(open => Minute(open.To))
                    .DefaultIfEmpty(-1)
                    .Max()
            ),
    ];

    /// <summary>Rank is the place of the sitting; times are minutes from midnight.</summary>
    internal sealed record Line(int Rank, int Step, int Start, int End, int Blanks, string Key);

    /// <summary>Done soonest over all orders that fit, waiting or not; null when none fits.</summary>
    public int? LeastDone { get; private set; }

    /// <summary>The best of those by all criteria that never wait while another step could be done whole.</summary>
    public IReadOnlyList<Line> Best { get; private set; } = [];

    public DayListEnumeration Run()
    {
        Extend(mayBeBest: true);
        return this;
    }

    private void Extend(bool mayBeBest)
    {
        var open = Enumerable.Range(0, sittings.Count).Where(rank => Next(rank) is not null).ToArray();
        if (open.Length == 0)
        {
            Judge(mayBeBest);
        }

        var next = open.Select(Walk).OfType<Line>().ToArray();
        foreach (var line in next)
        {
            var waits = next.Any(other => other.Start < line.Start && other.End <= line.Start);
            lines.Add(line);
            Extend(mayBeBest && !waits);
            lines.RemoveAt(lines.Count - 1);
        }
    }

    private void Judge(bool mayBeBest)
    {
        var done = lines.Count == 0 ? 0 : lines[^1].End;
        LeastDone = Math.Min(LeastDone ?? done, done);
        if (mayBeBest && (Best.Count == 0 || IsBetter(lines, Best)))
        {
            Best = [.. lines];
        }
    }

    private static bool IsBetter(IReadOnlyList<Line> one, IReadOnlyList<Line> other)
    {
        if (one[^1].End != other[^1].End)
        {
            return one[^1].End < other[^1].End;
        }

        if (Changes(one) != Changes(other))
        {
            return Changes(one) < Changes(other);
        }

        var differ = one.Zip(other)
            .FirstOrDefault(pair => (pair.First.Start, pair.First.Rank) != (pair.Second.Start, pair.Second.Rank));
        return differ.First is { } mine
            && (
                mine.Start < differ.Second.Start
                || (mine.Start == differ.Second.Start && mine.Rank < differ.Second.Rank)
            );
    }

    private static int Changes(IReadOnlyList<Line> order) =>
        order.Where((line, index) => index == 0 || order[index - 1].Key != line.Key).Count();

    /// <summary>The step a sitting is at and the blanks it still has there.</summary>
    private (int Step, int Left)? Next(int rank)
    {
        for (var step = 0; step < sittings[rank].Steps.Count; step++)
        {
            var left =
                sittings[rank].Blanks
                - lines.Where(line => line.Rank == rank && line.Step == step).Sum(line => line.Blanks);
            if (left > 0)
            {
                return (step, left);
            }
        }

        return null;
    }

    private Line? Walk(int rank)
    {
        var (number, left) = Next(rank)!.Value;
        var step = sittings[rank].Steps[number];
        var setUp = lines.Exists(line => line.Key == step.SetUp.Key) ? 0 : step.SetUp.Minutes;
        for (var minute = Earliest(rank, number); minute < closes.Length; minute++)
        {
            for (var blanks = left; blanks > 0; blanks--)
            {
                var end = minute + setUp + (int)Math.Ceiling(blanks * step.SecondsPerBlank / 60.0);
                if (end <= closes[minute])
                {
                    return new Line(rank, number, minute, end, blanks, step.SetUp.Key);
                }
            }
        }

        return null;
    }

    private int Earliest(int rank, int step)
    {
        var free = lines.Count == 0 ? 0 : lines[^1].End;
        var ready = sittings[rank].NotBefore is { } time ? Minute(time) : 0;
        if (lines.LastOrDefault(line => line.Rank == rank) is { } before)
        {
            var soaks = before.Step < step && sittings[rank].Steps[before.Step].Then is Follow.Soak;
            ready = before.End + (soaks ? ((Follow.Soak)sittings[rank].Steps[before.Step].Then).Minutes : 0);
        }

        return Math.Max(free, ready);
    }

    private static int Minute(TimeOnly time) => (time.Hour * 60) + time.Minute;
}

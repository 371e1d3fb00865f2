namespace ReedShop.Planning.Scheduling;

/// <summary>Where the day stands between two lines: how far every work is, and from when each may go on.</summary>
internal sealed class DayListState
{
    private readonly DayListHours hours;
    private readonly IReadOnlyList<DayListWork> works;
    private readonly Progress[] progress;
    private readonly string? lastKey;

    public DayListState(DayListHours hours, IReadOnlyList<DayListWork> works)
        : this(hours, works, [.. works.Select(work => Progress.AtStart(work, 0, work.Ready))], 0, null) { }

    private DayListState(
        DayListHours hours,
        IReadOnlyList<DayListWork> works,
        Progress[] progress,
        int now,
        string? lastKey
    ) => (this.hours, this.works, this.progress, Now, this.lastKey) = (hours, works, progress, now, lastKey);

    /// <summary>The end of the last line, in minutes from midnight.</summary>
    public int Now { get; }

    public bool IsDone => Enumerable.Range(0, works.Count).All(IsWorked);

    /// <summary>
    /// All that decides the rest of the day, so that two ways to the same state are searched once. Soaks that are
    /// over are alike, however long they have been.
    /// </summary>
    public string Signature()
    {
        var marks = new char[(3 * progress.Length) + 1];
        for (var rank = 0; rank < progress.Length; rank++)
        {
            marks[3 * rank] = (char)progress[rank].Step;
            marks[(3 * rank) + 1] = (char)progress[rank].Left;
            marks[(3 * rank) + 2] = (char)Math.Max(0, progress[rank].Ready - Now);
        }

        marks[^1] = (char)Now;
        return string.Concat(marks, lastKey);
    }

    /// <summary>
    /// What may be done next, by rank. A move is left out when another could be done whole while the bench waits for
    /// it: doing that one first delays nothing.
    /// </summary>
    public IReadOnlyList<DayListMove> Moves()
    {
        var moves = new List<DayListMove>();
        for (var rank = 0; rank < works.Count; rank++)
        {
            if (!IsWorked(rank) && MoveOf(rank) is { } move)
            {
                moves.Add(move);
            }
        }

        return [.. moves.Where(move => !moves.Exists(other => other.Start < move.Start && other.End <= move.Start))];
    }

    public DayListState After(DayListMove move)
    {
        var next = (Progress[])progress.Clone();
        var left = progress[move.Rank].Left - move.Blanks;
        next[move.Rank] =
            left > 0
                ? new Progress(move.Step, left, move.End)
                : Progress.AtStart(move.Work, move.Step + 1, move.End + move.Work.SoakMinutes(move.Step));
        return new DayListState(hours, works, next, move.End, move.Key);
    }

    /// <summary>1 when the move needs another tool at hand than the last line did, else 0.</summary>
    public int Changes(DayListMove move) => move.Key == lastKey ? 0 : 1;

    /// <summary>Minutes of soaking and work that lie between the move and the end of its work.</summary>
    public static int RoadAhead(DayListMove move)
    {
        var minutes = 0;
        for (var step = move.Step; step < move.Work.LastStep; step++)
        {
            minutes += move.Work.SoakMinutes(step) + move.Work[step + 1].HandsOnMinutes(move.Work.Blanks[step + 1]);
        }

        return minutes;
    }

    /// <summary>A minute before which the day cannot be done, whatever the order.</summary>
    public int LeastDone()
    {
        var open = Enumerable.Range(0, works.Count).Where(rank => !IsWorked(rank)).ToArray();
        if (open.Length == 0)
        {
            return Now;
        }

        var least = hours.After(open.Min(Ready), open.Sum(WorkMinutes) + SetUpMinutesLeft());
        foreach (var rank in open)
        {
            var ready = Ready(rank);
            var together = open.Where(other => Ready(other) >= ready).Sum(WorkMinutes);
            least = Math.Max(least, Math.Max(hours.After(ready, together), Alone(rank)));
        }

        return least;
    }

    private DayListMove? MoveOf(int rank)
    {
        var (work, at) = (works[rank], progress[rank]);
        var step = work[at.Step];
        var setUp = IsLaidOut(step.SetUp.Key) ? 0 : step.SetUp.Minutes;
        var (start, closes) = hours.FirstRoom(Ready(rank), setUp + step.HandsOnMinutes(1));
        if (start == DayListHours.Never)
        {
            return null;
        }

        var room = closes - start - setUp;
        var blanks = step.SecondsPerBlank == 0 ? at.Left : Math.Min(at.Left, room * 60 / step.SecondsPerBlank);
        return new DayListMove(work, rank, at.Step, start, setUp, blanks);
    }

    private bool IsWorked(int rank) => progress[rank].Step > works[rank].LastStep;

    private int Ready(int rank) => Math.Max(Now, progress[rank].Ready);

    private bool IsLaidOut(string key)
    {
        for (var rank = 0; rank < works.Count; rank++)
        {
            var (work, at) = (works[rank], progress[rank]);
            for (var step = 0; step <= work.LastStep && step <= at.Step; step++)
            {
                if (work[step].SetUp.Key == key && (step < at.Step || at.Left < work.Blanks[step]))
                {
                    return true;
                }
            }
        }

        return false;
    }

    private int WorkMinutes(int rank)
    {
        var minutes = 0;
        for (var step = progress[rank].Step; step <= works[rank].LastStep; step++)
        {
            minutes += works[rank][step].HandsOnMinutes(BlanksLeft(rank, step));
        }

        return minutes;
    }

    private int BlanksLeft(int rank, int step) =>
        step == progress[rank].Step ? progress[rank].Left : works[rank].Blanks[step];

    private int SetUpMinutesLeft() =>
        Enumerable
            .Range(0, works.Count)
            .SelectMany(rank => works[rank].Sitting.Steps.Take(works[rank].Blanks.Count).Skip(progress[rank].Step))
            .Select(step => step.SetUp)
            .Where(setUp => !IsLaidOut(setUp.Key))
            .GroupBy(setUp => setUp.Key, StringComparer.Ordinal)
            .Sum(key => key.Min(setUp => setUp.Minutes));

    /// <summary>When the work would be done had the maker nothing else to do and every tool at hand.</summary>
    private int Alone(int rank)
    {
        var (work, minute) = (works[rank], Ready(rank));
        for (var step = progress[rank].Step; step <= work.LastStep; step++)
        {
            minute = hours.After(minute, work[step].HandsOnMinutes(BlanksLeft(rank, step)));
            if (minute == DayListHours.Never || step == work.LastStep)
            {
                break;
            }

            minute += work.SoakMinutes(step);
        }

        return minute;
    }

    /// <param name="Left">Blanks still to be worked at the step.</param>
    /// <param name="Ready">The minute from which the step may go on.</param>
    private readonly record struct Progress(int Step, int Left, int Ready)
    {
        public static Progress AtStart(DayListWork work, int step, int ready) =>
            step <= work.LastStep ? new Progress(step, work.Blanks[step], ready) : new Progress(step, 0, 0);
    }
}

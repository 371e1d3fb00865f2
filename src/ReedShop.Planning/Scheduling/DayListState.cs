using System.Collections.Immutable;

namespace ReedShop.Planning.Scheduling;

/// <summary>Where the day stands between two lines: how far every work is, and from when each may go on.</summary>
internal sealed partial class DayListState
{
    private readonly DayListHours hours;
    private readonly IReadOnlyList<DayListWork> works;
    private readonly Progress[] progress;
    private readonly string? lastKey;

    /// <summary>Tools not yet laid out today, each with the least minutes that its set-up is given.</summary>
    private readonly ImmutableDictionary<string, int> toLayOut;

    public DayListState(DayListHours hours, IReadOnlyList<DayListWork> works)
    {
        (this.hours, this.works) = (hours, works);
        progress = [.. works.Select(work => Progress.AtStart(work, 0, work.Ready))];
        toLayOut = works
            .SelectMany(work => work.SetUps)
            .GroupBy(setUp => setUp.Key, StringComparer.Ordinal)
            .ToImmutableDictionary(key => key.Key, key => key.Min(setUp => setUp.Minutes), StringComparer.Ordinal);
    }

    private DayListState(DayListState before, DayListMove move)
    {
        (hours, works) = (before.hours, before.works);
        progress = [.. before.progress];
        progress[move.Rank] = before.progress[move.Rank].After(move);
        (Now, lastKey, toLayOut) = (move.End, move.Key, before.toLayOut.Remove(move.Key));
    }

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

    public DayListState After(DayListMove move) => new(this, move);

    /// <summary>1 when the move needs another tool at hand than the last line did, else 0.</summary>
    public int Changes(DayListMove move) => move.Key == lastKey ? 0 : 1;

    private DayListMove? MoveOf(int rank)
    {
        var (work, at) = (works[rank], progress[rank]);
        var step = work[at.Step];
        var setUp = toLayOut.ContainsKey(step.SetUp.Key) ? step.SetUp.Minutes : 0;
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

    /// <param name="Left">Blanks still to be worked at the step.</param>
    /// <param name="Ready">The minute from which the step may go on.</param>
    private readonly record struct Progress(int Step, int Left, int Ready)
    {
        public static Progress AtStart(DayListWork work, int step, int ready) =>
            step <= work.LastStep ? new Progress(step, work.Blanks[step], ready) : new Progress(step, 0, 0);

        public Progress After(DayListMove move) =>
            move.Blanks < Left
                ? new Progress(Step, Left - move.Blanks, move.End)
                : AtStart(move.Work, Step + 1, move.End + move.Work.SoakMinutes(Step));
    }
}

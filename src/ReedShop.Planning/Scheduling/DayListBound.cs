namespace ReedShop.Planning.Scheduling;

/// <content>How soon the day can be done at best: lets the search leave out what cannot be the best order.</content>
internal sealed partial class DayListState
{
    /// <summary>A minute before which the day cannot be done, whatever the order.</summary>
    public int LeastDone()
    {
        var (first, all, least) = (DayListHours.Never, toLayOut.Values.Sum(), Now);
        for (var rank = 0; rank < works.Count; rank++)
        {
            if (!IsWorked(rank))
            {
                first = Math.Min(first, Ready(rank));
                all += WorkMinutes(rank);
                least = Math.Max(least, Math.Max(Alone(rank), hours.After(Ready(rank), WorkMinutesFrom(Ready(rank)))));
            }
        }

        return all == 0 ? least : Math.Max(least, hours.After(first, all));
    }

    /// <summary>Minutes of all work that may not go on before a minute.</summary>
    private int WorkMinutesFrom(int minute)
    {
        var minutes = 0;
        for (var rank = 0; rank < works.Count; rank++)
        {
            minutes += Ready(rank) >= minute ? WorkMinutes(rank) : 0;
        }

        return minutes;
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
}

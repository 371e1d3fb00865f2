namespace ReedShop.Planning.Scheduling;

/// <summary>The one owner of the hour minimum of a night on the rack.</summary>
public static class Night
{
    /// <summary>The first moment at which a night counts: its least hours after the recorded end.</summary>
    /// <remarks>
    /// The hours are real hours and the clock of the answer is the clock of the argument. Pass the recorded end as UTC
    /// and turn the answer into local time, and a night in which the clocks change is neither an hour short nor long.
    /// </remarks>
    public static DateTime EarliestStart(DateTime recordedEnd, int leastHours) => recordedEnd.AddHours(leastHours);

    /// <summary>
    /// What a moment in local time means for a day list: null when it has passed before the day begins, the end of
    /// the day when it lies beyond.
    /// </summary>
    public static TimeOnly? NotBefore(DateTime earliestStart, DateOnly day)
    {
        var date = DateOnly.FromDateTime(earliestStart);
        if (date < day)
        {
            return null;
        }

        return date > day ? TimeOnly.MaxValue : TimeOnly.FromDateTime(earliestStart);
    }
}

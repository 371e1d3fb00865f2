namespace ReedShop.Calendar;

public enum EntryKind
{
    /// <summary>Work of one batch on one day.</summary>
    Sitting,

    /// <summary>The day an order is promised to leave.</summary>
    Parcel,

    /// <summary>Nights on the rack between two sittings.</summary>
    Nights,
}

public enum EntryStage
{
    /// <summary>It stands in the plan.</summary>
    Planned,

    /// <summary>It came to pass: the plan no longer has it, the calendar keeps it as it was.</summary>
    Past,

    /// <summary>The plan dropped it.</summary>
    Cancelled,
}

/// <summary>What an entry says: as long as all of it is the same, calendars are told of no change.</summary>
/// <param name="LastDay">Inclusive.</param>
/// <param name="From">Local time; none of an entry for whole days.</param>
public sealed record EntryContent(
    EntryKind Kind,
    DateOnly FirstDay,
    DateOnly LastDay,
    TimeOnly? From,
    TimeOnly? To,
    string Title,
    string Text
);

/// <summary>What the plan has to tell by one name.</summary>
/// <param name="Subject">The id of its batch, or the number of its order.</param>
public sealed record PlanEntry(string Name, string Subject, EntryContent Content);

/// <summary>
/// One entry of the calendar as it was last published. It is a row because a calendar must be told the same name for
/// the same thing, and a higher sequence only when the thing has changed; a request for the feed changes neither.
/// </summary>
public sealed class CalendarEntry
{
    /// <summary>The part of the name before the @: batch, last step and part of a sitting, or the number of an order.</summary>
    public required string Name { get; init; }

    /// <summary>The id of its batch, or the number of its order.</summary>
    public required string Subject { get; init; }

    public required EntryContent Content { get; set; }

    /// <summary>The last day of the content, for the database to look for.</summary>
    public DateOnly LastDay { get; set; }

    public EntryStage Stage { get; set; }

    /// <summary>Rises whenever what calendars are told changes (RFC 5545, 3.8.7.4).</summary>
    public int Sequence { get; set; }

    public required DateTime CreatedUtc { get; init; }

    public DateTime ChangedUtc { get; set; }

    public static CalendarEntry Of(PlanEntry planned, DateTime nowUtc) =>
        new()
        {
            Name = planned.Name,
            Subject = planned.Subject,
            Content = planned.Content,
            LastDay = planned.Content.LastDay,
            CreatedUtc = nowUtc,
            ChangedUtc = nowUtc,
        };

    /// <summary>The plan has it, and this is what it says now.</summary>
    public void Say(EntryContent content, DateTime nowUtc)
    {
        if (Stage == EntryStage.Cancelled || content != Content)
        {
            Change(nowUtc);
        }

        (Stage, Content, LastDay) = (EntryStage.Planned, content, content.LastDay);
    }

    public void Cancel(DateTime nowUtc)
    {
        Change(nowUtc);
        Stage = EntryStage.Cancelled;
    }

    private void Change(DateTime nowUtc) => (Sequence, ChangedUtc) = (Sequence + 1, nowUtc);
}

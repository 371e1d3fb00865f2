using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;

namespace ReedShop.Shop;

/// <summary>One time an event of a file happens.</summary>
/// <param name="Instance">Which of its recurrences it is; stays the same when it is moved.</param>
internal sealed record Happening(CalendarEvent Event, string Instance, CalDateTime From, CalDateTime To);

/// <summary>
/// Expands the events of one UID: the recurring one, and those that take the place of single recurrences, or of all
/// from one on (RFC 5545, 3.8.4.4). The library expands the rules; places are matched here, because files name them
/// by another zone's clock as well.
/// </summary>
internal static class Recurrences
{
    /// <param name="isNear">A rule is followed no farther than to the first recurrence that is not.</param>
    public static IEnumerable<Happening> Of(IReadOnlyList<CalendarEvent> sameUid, Func<CalDateTime, bool> isNear)
    {
        var replacing = sameUid
            .Where(e => e.RecurrenceIdentifier is not null)
            .GroupBy(e => InstanceOf(e.RecurrenceIdentifier!.StartTime), StringComparer.Ordinal)
            .ToDictionary(same => same.Key, Newest, StringComparer.Ordinal);
        var following = replacing
            .Values.Where(e => e.RecurrenceIdentifier!.Range == RecurrenceRange.ThisAndFuture)
            .OrderBy(e => e.RecurrenceIdentifier!.StartTime.AsUtc)
            .ToArray();
        var whole = sameUid
            .Where(e => e.RecurrenceIdentifier is null)
            .GroupBy(e => InstanceOf(e.DtStart!), StringComparer.Ordinal)
            .Select(Newest);
        var own = replacing.Select(one => new Happening(one.Value, one.Key, one.Value.DtStart!, End(one.Value)));
        return own.Concat(
            whole
                .SelectMany(e => Expanded(e).TakeWhile(one => isNear(one.From)))
                .Where(one => !replacing.ContainsKey(one.Instance))
                .Select(one => Follow(one, following))
        );
    }

    private static IEnumerable<Happening> Expanded(CalendarEvent event_) =>
        event_
            .GetOccurrences(null, BusyFile.Evaluation)
            .Select(occurrence => occurrence.Period)
            .Select(period => new Happening(
                event_,
                InstanceOf(period.StartTime),
                period.StartTime,
                period.EffectiveEndTime ?? period.StartTime
            ));

    /// <summary>A recurrence after one that changed all that follow begins as much later, and lasts as long, as that one.</summary>
    private static Happening Follow(Happening one, IReadOnlyList<CalendarEvent> following)
    {
        var changed = following.LastOrDefault(e => e.RecurrenceIdentifier!.StartTime.AsUtc <= one.From.AsUtc);
        if (changed is null)
        {
            return one;
        }

        var start = changed.DtStart!;
        var later = start.Value - OnClockOf(start, changed.RecurrenceIdentifier!.StartTime).Value;
        var moved = OnClockOf(start, one.From).Value + later;
        var from = new CalDateTime(moved, start.TzId, start.HasTime);
        return new Happening(changed, one.Instance, from, from.Add(changed.EffectiveDuration));
    }

    private static CalDateTime OnClockOf(CalDateTime clock, CalDateTime time) =>
        clock.TzId is { } zone && !time.IsFloating ? time.ToTimeZone(zone) : time;

    private static CalDateTime End(CalendarEvent event_) => event_.DtStart!.Add(event_.EffectiveDuration);

    /// <summary>The last word on an event is the revision with the highest number, or the last one in the file.</summary>
    private static CalendarEvent Newest(IEnumerable<CalendarEvent> same) =>
        same.Aggregate((newest, e) => e.Sequence >= newest.Sequence ? e : newest);

    /// <summary>The same for one instant, whichever clock it is told by.</summary>
    private static string InstanceOf(CalDateTime start) =>
        !start.HasTime ? FormattableString.Invariant($"{start.Date:yyyyMMdd}")
        : start.IsFloating ? FormattableString.Invariant($"{start.Value:yyyyMMdd'T'HHmmss}")
        : FormattableString.Invariant($"{start.AsUtc:yyyyMMdd'T'HHmmss'Z'}");
}

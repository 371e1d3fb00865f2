using ReedShop.Planning.Bench;

namespace ReedShop.Shop;

/// <summary>A busy time of a file, on the shop's clock.</summary>
/// <param name="Key">Names it when it is to be left out.</param>
/// <param name="From">Missing where it lasts whole days.</param>
/// <param name="LastDay">The last day it touches.</param>
/// <param name="Takes">The hours it takes away, day by day.</param>
public sealed record BusyTimeView(
    string Key,
    string Uid,
    string Summary,
    DateOnly FirstDay,
    TimeOnly? From,
    DateOnly LastDay,
    TimeOnly? To,
    IReadOnlyList<TakenView> Takes
)
{
    public static BusyTimeView Of(BusyTaking taking) =>
        new(
            taking.Time.Key,
            taking.Time.Uid,
            taking.Time.Summary,
            DateOnly.FromDateTime(taking.Time.From),
            taking.Time.IsAllDay ? null : TimeOnly.FromDateTime(taking.Time.From),
            taking.Time.Days.Last(),
            taking.Time.IsAllDay ? null : TimeOnly.FromDateTime(taking.Time.To),
            [
                .. taking.Days.Select(day => new TakenView(
                    day.Date,
                    taking.Time.TakenOf(day.Date, day.Before),
                    day.ParcelsStop
                )),
            ]
        );
}

/// <param name="ParcelsStop">It is a ship day now, and would be none.</param>
public sealed record TakenView(DateOnly Date, IReadOnlyList<OpenHours> Hours, bool ParcelsStop);

/// <summary>What becomes of one day, and what the plan has on it.</summary>
public sealed record DayChangeView(
    DateOnly Date,
    IReadOnlyList<OpenHours> Before,
    IReadOnlyList<OpenHours> After,
    string? Reason,
    bool ParcelsStop,
    IReadOnlyList<StandingSitting> Planned
)
{
    public static DayChangeView Of(DayChange change, IReadOnlyList<StandingSitting> sittings) =>
        new(
            change.Date,
            change.Before,
            change.After.Hours,
            change.After.Reason,
            change.ParcelsStop,
            [.. sittings.Where(sitting => sitting.Date == change.Date)]
        );
}

/// <summary>What a calendar file changes in the year ahead.</summary>
/// <param name="Kept">False for a preview, which changes nothing.</param>
/// <param name="Times">The busy times that take bench hours or parcels away.</param>
/// <param name="Days">The days as they are with these times. After keeping: as they have become.</param>
/// <param name="WithoutEffect">Busy times that take nothing away, or only what is taken already.</param>
/// <param name="Free">Events that leave the maker free.</param>
/// <param name="Cancelled">Times that were called off.</param>
/// <param name="Unread">Events that cannot be read; nothing is taken for them.</param>
public sealed record BusyTimesView(
    bool Kept,
    DateOnly From,
    DateOnly Until,
    IReadOnlyList<BusyTimeView> Times,
    IReadOnlyList<DayChangeView> Days,
    int WithoutEffect,
    int Free,
    int Cancelled,
    IReadOnlyList<UnreadEvent> Unread
)
{
    public static BusyTimesView Of(
        bool kept,
        BusyLook look,
        IReadOnlySet<string> leftOut,
        IReadOnlyList<DayChange> days,
        IReadOnlyList<StandingSitting> sittings
    ) =>
        new(
            kept,
            look.Today,
            look.Today.AddDays(BusyFile.DaysAhead),
            [.. look.Taking.Where(taking => !leftOut.Contains(taking.Time.Key)).Select(BusyTimeView.Of)],
            [.. days.Select(day => DayChangeView.Of(day, sittings))],
            look.Without.Count,
            look.File.Free,
            look.File.Cancelled,
            look.File.Unread
        );
}

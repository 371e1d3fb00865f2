using ReedShop.Planning.Bench;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>Days with other hours as pages say them.</summary>
public static class DayWords
{
    public static string Hours(IReadOnlyList<OpenHours> hours) =>
        hours.Count == 0 ? "closed" : string.Join(", ", hours.Select(Stretch));

    /// <summary>"closed, no parcels leave", "closed, parcels leave", "19:30–21:00".</summary>
    public static string Of(OtherDay day) =>
        day.Hours.Count > 0 ? Hours(day.Hours)
        : day.SendsParcels ? "closed, parcels leave all the same"
        : "closed, no parcels leave";

    /// <summary>"Wed 3 March 2027", "Mon 2 – Fri 13 August 2027".</summary>
    public static string Days(DateOnly first, DateOnly last) =>
        first == last ? Words.DayOfYear(first) : $"{Words.Day(first)} – {Words.DayOfYear(last)}";

    /// <summary>"Wed 3 March 2027, 18:30–22:00"; whole days without hours.</summary>
    public static string When(BusyTime time)
    {
        var (first, last) = (DateOnly.FromDateTime(time.From), time.Days.Last());
        var (from, to) = (Words.Clock(TimeOnly.FromDateTime(time.From)), Words.Clock(TimeOnly.FromDateTime(time.To)));
        return time.IsAllDay ? $"{Days(first, last)}, {(first == last ? "all day" : "whole days")}"
            : first == last ? $"{Words.DayOfYear(first)}, {from}–{to}"
            : $"{Words.DayOfYear(first)}, {from} – {Words.DayOfYear(DateOnly.FromDateTime(time.To))}, {to}";
    }

    /// <summary>What a busy time takes of a day.</summary>
    public static string Takes(BusyTime time, DayChange day)
    {
        var hours = time.TakenOf(day.Date, day.Before);
        var parcels = day.ParcelsStop ? "no parcels leave" : null;
        return hours.Count == 0
            ? parcels ?? "nothing: closed anyway"
            : $"{Hours(hours)}{(parcels is null ? "" : $"; {parcels}")}";
    }

    public static string Sitting(StandingSitting sitting) =>
        $"batch {sitting.Number}: {string.Join(", ", sitting.Steps)}, {Words.Minutes(sitting.Minutes)}";

    private static string Stretch(OpenHours hours) => $"{Words.Clock(hours.From)}–{Words.Clock(hours.To)}";
}

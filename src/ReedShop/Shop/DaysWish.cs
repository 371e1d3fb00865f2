using System.Globalization;
using ReedShop.Planning.Bench;
using ReedShop.Platform;
using ReedShop.Platform.Layout;

namespace ReedShop.Shop;

/// <summary>Days with other hours as the maker types them: named as refusals name them.</summary>
/// <param name="Last">Empty for one day.</param>
/// <param name="Hours">Empty where the bench is closed.</param>
/// <param name="Open">“yes” where the days have hours of their own.</param>
/// <param name="Parcels">“yes” where parcels leave though the bench is closed.</param>
public sealed record DaysWish(
    string? First = null,
    string? Last = null,
    string? Reason = null,
    string? Open = null,
    string? Hours = null,
    string? Parcels = null
)
{
    public const string Yes = "yes";

    public bool IsOpen => Open == Yes;

    public bool SendsParcels => Parcels == Yes;

    public Result<IReadOnlyList<OtherDay>> Days(DateOnly today)
    {
        var first = Day("first", First);
        var last = string.IsNullOrWhiteSpace(Last) ? first : Day("last", Last);
        var hours = IsOpen ? HoursText.Parse(Hours ?? "", "hours") : Array.Empty<OpenHours>();
        return (first.Refusal ?? last.Refusal ?? hours.Refusal) is { } fault ? fault
            : Fault(first.Value, last.Value, hours.Value, today) is { } refusal ? refusal
            : Enumerable
                .Range(0, 1 + last.Value.DayNumber - first.Value.DayNumber)
                .Select(ahead => new OtherDay(
                    first.Value.AddDays(ahead),
                    hours.Value,
                    DayReason.Of(Reason),
                    !IsOpen && SendsParcels
                ))
                .ToArray();
    }

    private Refusal? Fault(DateOnly first, DateOnly last, IReadOnlyList<OpenHours> hours, DateOnly today)
    {
        var farthest = today.AddDays(BusyFile.DaysAhead);
        return first < today || first > farthest
                ? Refusal.Invalid("first", "The first day lies outside the coming year.", Between(today, farthest))
            : last < first || last > farthest
                ? Refusal.Invalid(
                    "last",
                    "The last day lies before the first, or too far ahead.",
                    Between(first, farthest)
                )
            : IsOpen && hours.Count == 0 ? Refusal.Invalid("hours", "The hours are missing.", HoursText.Allowed)
            : null;
    }

    private static string Between(DateOnly first, DateOnly last) =>
        $"{Words.DayToSend(first)} to {Words.DayToSend(last)}";

    private static Result<DateOnly> Day(string field, string? text) =>
        DateOnly.TryParseExact(
            text?.Trim(),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var day
        )
            ? day
            : Refusal.Invalid(field, $"“{text}” is not a date.", "a date such as 2027-03-03");
}

using System.Globalization;
using ReedShop.Planning.Bench;
using ReedShop.Platform;

namespace ReedShop.Shop;

/// <summary>Hours as the owner writes them: "9:00-12:00, 14:00-17:00", and nothing where the bench is closed.</summary>
public static class HoursText
{
    public const string Allowed =
        "stretches such as 19:00-21:00 or 9:00-12:00, 14:00-17:00, in the order of the day; nothing where closed";

    public static string Of(IEnumerable<OpenHours> hours) =>
        string.Join(
            ", ",
            hours.Select(stretch => FormattableString.Invariant($"{stretch.From:H:mm}-{stretch.To:H:mm}"))
        );

    /// <param name="field">The name a refusal gives.</param>
    public static Result<IReadOnlyList<OpenHours>> Parse(string text, string field)
    {
        var hours = new List<OpenHours>();
        foreach (var part in text.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            if (Stretch(part) is not { } stretch)
            {
                return Refusal.Invalid(field, $"“{part}” are no hours.", Allowed);
            }

            hours.Add(stretch);
        }

        return ShopView.AreInOrder(hours)
            ? hours
            : Refusal.Invalid(field, $"“{text}” ends before it starts, or overlaps.", Allowed);
    }

    private static OpenHours? Stretch(string text) =>
        text.Split(['-', '–'], StringSplitOptions.TrimEntries) is [var from, var to]
        && Clock(from) is { } opens
        && Clock(to) is { } closes
            ? new OpenHours(opens, closes)
            : null;

    private static TimeOnly? Clock(string text) =>
        TimeOnly.TryParseExact(text, "H:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time)
            ? time
            : null;
}

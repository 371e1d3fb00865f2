using System.Globalization;
using ReedShop.Platform;

namespace ReedShop.Shop;

/// <summary>
/// Dates with other hours, one on a line: "2027-03-06 9:00-12:00 extra morning", and "2027-03-03 concert" where the
/// bench is closed. "+parcels" before the reason lets parcels leave though the bench is closed.
/// </summary>
public static class OtherDaysText
{
    public const string Allowed =
        "on each line a date, hours if the bench is open and a reason if you like, such as 2027-03-03 concert or "
        + "2027-03-06 9:00-12:00 extra morning";

    public const int MostReasonCharacters = 100;

    private const string Parcels = "+parcels";

    public static string Of(IEnumerable<OtherDay> days) => string.Join('\n', days.Select(Line));

    /// <param name="field">The name a refusal gives.</param>
    public static Result<IReadOnlyList<OtherDay>> Parse(string text, string field)
    {
        var days = new List<OtherDay>();
        foreach (var line in text.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var day = Day(line, field);
            if (day.Refusal is { } refusal)
            {
                return refusal;
            }

            days.Add(day.Value);
        }

        return days;
    }

    private static string Line(OtherDay day) =>
        string.Join(
            ' ',
            new[]
            {
                day.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
                HoursText.Of(day.Hours),
                day.Hours.Count == 0 && day.SendsParcels ? Parcels : "",
                day.Reason ?? "",
            }.Where(part => part.Length > 0)
        );

    private static Result<OtherDay> Day(string line, string field)
    {
        var words = line.Split(' ', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (
            !DateOnly.TryParseExact(
                words[0],
                "yyyy-MM-dd",
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out var date
            )
        )
        {
            return Refusal.Invalid(field, $"“{line}” does not begin with a date.", Allowed);
        }

        var hours = words.Skip(1).TakeWhile(IsOfHours).ToArray();
        var rest = words.Skip(1 + hours.Length).ToArray();
        var sends = rest is [Parcels, ..];
        var reason = string.Join(' ', rest.Skip(sends ? 1 : 0));
        return reason.Length > MostReasonCharacters
            ? Refusal.Invalid(
                field,
                $"The reason on {words[0]} is too long.",
                $"up to {MostReasonCharacters} characters"
            )
            : HoursText
                .Parse(string.Join(' ', hours), field)
                .Then<OtherDay>(open => new OtherDay(
                    date,
                    open,
                    reason.Length == 0 ? null : reason,
                    sends && open.Count == 0
                ));
    }

    /// <summary>A reason begins with a letter, so that hours written wrongly are not taken for one.</summary>
    internal static bool IsOfHours(string word) => char.IsAsciiDigit(word[0]) || word[0] is '-' or '–' or ',';
}

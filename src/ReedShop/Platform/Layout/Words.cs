using System.Globalization;

namespace ReedShop.Platform.Layout;

/// <summary>How figures are said on pages: the same words for the same thing everywhere.</summary>
public static class Words
{
    private const int MinutesPerHour = 60;

    private static readonly CultureInfo English = CultureInfo.GetCultureInfo("en-GB");

    /// <summary>"Thu 4 March".</summary>
    public static string Day(DateOnly day) => day.ToString("ddd d MMMM", English);

    /// <summary>"Thursday 4 March 2027".</summary>
    public static string FullDay(DateOnly day) => day.ToString("dddd d MMMM yyyy", English);

    /// <summary>"2027-03-04", for addresses, date fields and the datetime attribute.</summary>
    public static string Iso(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public static string Clock(TimeOnly time) => time.ToString("HH:mm", CultureInfo.InvariantCulture);

    /// <summary>"1 – 7 March", "29 March – 4 April".</summary>
    public static string Span(DateOnly first, DateOnly last) =>
        first.Month == last.Month
            ? $"{first.Day.ToString(English)} – {last.ToString("d MMMM yyyy", English)}"
            : $"{first.ToString("d MMMM", English)} – {last.ToString("d MMMM yyyy", English)}";

    /// <summary>"about 93 in 100"; rounded down, because a promise may not be made to look better than it is.</summary>
    public static string Chance(double chance) => $"about {((int)Math.Floor(chance * 100)).ToString(English)} in 100";

    /// <summary>"35 min", "2 h", "7 h 50 min".</summary>
    public static string Minutes(int minutes) =>
        minutes < MinutesPerHour ? FormattableString.Invariant($"{minutes} min")
        : minutes % MinutesPerHour == 0 ? FormattableString.Invariant($"{minutes / MinutesPerHour} h")
        : FormattableString.Invariant($"{minutes / MinutesPerHour} h {minutes % MinutesPerHour} min");

    /// <summary>"1 blank", "5 blanks".</summary>
    public static string Count(int count, string one, string many) =>
        FormattableString.Invariant($"{count} {(count == 1 ? one : many)}");

    public static string Blanks(int count) => Count(count, "blank", "blanks");

    public static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
